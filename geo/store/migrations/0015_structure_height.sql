-- How high a structure is, where the grower knows it: what it shades hangs on it.
alter table structures
  add column height_m double precision check (height_m >= 0 and height_m < 'infinity');
