-- A bed lies within its field (0.25 m), a row along its bed (0.5 m), a stretch within its row (0.1 m). Looked at when
-- the transaction ends, so that a bed and its rows may move together. Leaving the field or bed can be accepted. An
-- archive being loaded (step 'load') was looked at as a whole before, so its records are not looked at one by one.
create function is_loading() returns boolean language sql stable as $$
  select coalesce(current_setting('selion.step', true), '') = 'load'
$$;

create function lies_within(inner_plan geometry, outer_plan geometry, tolerance_m double precision) returns boolean
language sql immutable as $$
  select st_coveredby(inner_plan, outer_plan) or st_coveredby(inner_plan, st_buffer(outer_plan, tolerance_m))
$$;

create function bed_within_field() returns trigger language plpgsql as $$
declare bed record;
begin
  if is_loading() then return null; end if;
  for bed in
    select b.id, b.name, f.name as field_name from beds b join fields f on f.id = b.field
    where case when tg_table_name = 'fields' then b.field = new.id else b.id = new.id end
      and b.outside_accepted is not true and not lies_within(b.plan, f.plan, 0.25)
  loop
    raise exception using errcode = 'SL001', constraint = 'bed_within_field', table = 'beds', column = 'geom',
      message = format('bed %s leaves its field %s', bed.name, bed.field_name), detail = bed.id;
  end loop;
  return null;
end $$;
create constraint trigger bed_within_field after insert or update of geom, field, outside_accepted on beds
  deferrable initially deferred for each row execute function bed_within_field();
create constraint trigger field_holds_beds after update of geom on fields
  deferrable initially deferred for each row execute function bed_within_field();

create function row_along_bed() returns trigger language plpgsql as $$
declare line record;
begin
  if is_loading() then return null; end if;
  for line in
    select r.id, coalesce(r.name, r.id) as name, b.name as bed_name from rows r join beds b on b.id = r.bed
    where case when tg_table_name = 'beds' then r.bed = new.id else r.id = new.id end
      and r.outside_accepted is not true and not lies_within(r.plan, b.plan, 0.5)
  loop
    raise exception using errcode = 'SL001', constraint = 'row_along_bed', table = 'rows', column = 'geom',
      message = format('row %s leaves its bed %s', line.name, line.bed_name), detail = line.id;
  end loop;
  return null;
end $$;
create constraint trigger row_along_bed after insert or update of geom, bed, outside_accepted on rows
  deferrable initially deferred for each row execute function row_along_bed();
create constraint trigger bed_holds_rows after update of geom on beds
  deferrable initially deferred for each row execute function row_along_bed();

create function stretch_within_row() returns trigger language plpgsql as $$
declare stretch record;
begin
  if is_loading() then return null; end if;
  for stretch in
    select p.id, st_length(r.plan) as length_m, greatest(p.from_m, p.to_m) as end_m, r.id as row_id
    from plantings p join rows r on r.id = p.row
    where case when tg_table_name = 'rows' then p.row = new.id else p.id = new.id end
      and greatest(p.from_m, p.to_m) > st_length(r.plan) + 0.1
  loop
    raise exception using errcode = 'SL001', constraint = 'stretch_within_row', table = 'plantings', column = 'to_m',
      message = format('planting %s ends at %s m, but its row %s is %s m long',
        stretch.id, stretch.end_m, stretch.row_id, round(stretch.length_m::numeric, 2)), detail = stretch.id;
  end loop;
  return null;
end $$;
create constraint trigger stretch_within_row after insert or update of row, from_m, to_m on plantings
  deferrable initially deferred for each row execute function stretch_within_row();
create constraint trigger row_holds_stretches after update of geom on rows
  deferrable initially deferred for each row execute function stretch_within_row();
