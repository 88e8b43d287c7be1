-- The plantings that stand in beds, told by the bed itself or by one of its rows, each found by its index: `stretches`
-- has one column for both, by which it can only be read through.
create function plantings_in(beds text[]) returns setof text language sql stable as $$
  select id from plantings where bed = any($1)
  union select p.id from rows r join plantings p on p.row = r.id where r.bed = any($1)
$$;
