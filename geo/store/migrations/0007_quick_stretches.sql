-- The same answers in a fifth of the time: in SQL a function with a subquery is planned and started anew at every call.
create or replace function long_middle(bed geometry) returns geometry
language plpgsql immutable as $$
declare
  ring geometry := st_exteriorring(st_orientedenvelope(bed));
  a geometry := st_pointn(ring, 1);
  b geometry := st_pointn(ring, 2);
  c geometry := st_pointn(ring, 3);
  d geometry := st_pointn(ring, 4);
begin
  if st_distance(a, b) >= st_distance(b, c) then
    return st_makeline(st_centroid(st_makeline(a, d)), st_centroid(st_makeline(b, c)));
  end if;
  return st_makeline(st_centroid(st_makeline(a, b)), st_centroid(st_makeline(d, c)));
end
$$;

create or replace function stretch_of(line geometry, from_m double precision, to_m double precision) returns geometry
language plpgsql immutable as $$
declare
  length_m double precision := st_length(line);
begin
  return st_linesubstring(line, least(coalesce(from_m, 0) / length_m, 1), least(coalesce(to_m, length_m) / length_m, 1));
end
$$;
