-- No statistics are kept of where shapes lie. The embedded engine fails to plan a join of two analyzed tables whose
-- shapes lie apart ("invalid function selectivity"): PostGIS 3.6 returns a zero there as a boxed number, which is its
-- address where an address has 32 bits. Without statistics the planner takes PostGIS's usual shares.
do $$
declare
  place record;
begin
  for place in
    select attrelid::regclass as relation, attname from pg_attribute join pg_class c on c.oid = attrelid
    where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and atttypid = 'geometry'::regtype and attnum > 0
  loop
    execute format('alter table %s alter column %I set statistics 0', place.relation, place.attname);
  end loop;
end
$$;
