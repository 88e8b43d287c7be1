-- What a system's parts are reckoned by, where the grower knows it.
alter table systems
  add column height_m double precision check (height_m > 0 and height_m < 'infinity'),
  add column lines integer check (lines between 1 and 50),
  add column tension_n double precision check (tension_n > 0 and tension_n < 'infinity');

alter table system_parts
  add column kind text check (kind in ('post', 'end post', 'brace', 'wire', 'string', 'net', 'panel', 'tie', 'other')),
  add column roll_m double precision check (roll_m > 0 and roll_m < 'infinity'),
  add column diameter_mm double precision check (diameter_mm > 0 and diameter_mm < 'infinity'),
  add column strength_mpa double precision check (strength_mpa > 0 and strength_mpa < 'infinity'),
  add column modulus_gpa double precision check (modulus_gpa > 0 and modulus_gpa < 'infinity');
