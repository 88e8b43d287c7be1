-- What the archive asks of records together holds for edits too, so that what was saved can be brought in again: the
-- shares of a pick are at most the whole of it, no more plants leave a lot than it holds, a planting's bed is its row's,
-- and nothing lies farther than 100 km from the farm's origin. Loading an archive was looked at as a whole before.
create function share_within_pick() returns trigger language plpgsql as $$
declare total double precision;
begin
  if is_loading() then return null; end if;
  select sum(part) into total from shares where pick = new.pick;
  if total > 1 + 1e-9 then
    raise exception using errcode = 'SL001', constraint = 'share_within_pick', table = 'shares', column = 'part',
      message = format('the shares of this pick come to %s, above the whole of it', round(total::numeric, 4)), detail = new.id;
  end if;
  return null;
end $$;
create constraint trigger share_within_pick after insert or update of pick, part on shares
  deferrable initially deferred for each row execute function share_within_pick();

create function moves_within_lot() returns trigger language plpgsql as $$
declare lot record;
begin
  if is_loading() then return null; end if;
  for lot in
    select l.id, l.kind, l.count,
      coalesce(sum(m.count) filter (where m.move in ('sold', 'lost')), 0) as gone,
      coalesce(sum(m.count) filter (where m.move = 'lifted'), 0) as lifted,
      coalesce(max(m.count) filter (where m.move = 'reserved'), 0) as reserved
    from stock_lots l join stock_moves m on m.lot = l.id
    where l.id = case when tg_table_name = 'stock_lots' then new.id else to_jsonb(new)->>'lot' end
    group by l.id
  loop
    if greatest(lot.gone, lot.lifted, lot.reserved) > lot.count then
      raise exception using errcode = 'SL001', constraint = 'moves_within_lot', table = 'stock_moves', column = 'count',
        message = format('lot %s holds %s plants; that many can''t be sold, lost, lifted or reserved of it', lot.kind, lot.count),
        detail = new.id;
    end if;
  end loop;
  return null;
end $$;
create constraint trigger moves_within_lot after insert or update on stock_moves
  deferrable initially deferred for each row execute function moves_within_lot();
create constraint trigger lot_holds_moves after update of count on stock_lots
  deferrable initially deferred for each row execute function moves_within_lot();

create function bed_of_row() returns trigger language plpgsql as $$
begin
  if is_loading() then return null; end if;
  if exists (select from plantings p join rows r on r.id = p.row where p.id = new.id and p.bed <> r.bed) then
    raise exception using errcode = 'SL001', constraint = 'bed_of_row', table = 'plantings', column = 'bed',
      message = 'the planting''s row lies in another bed', detail = new.id;
  end if;
  return null;
end $$;
create constraint trigger bed_of_row after insert or update of row, bed on plantings
  deferrable initially deferred for each row execute function bed_of_row();

do $$
declare t text;
begin
  foreach t in array array['fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations']
  loop
    execute format('alter table %I add constraint %I check (st_xmin(plan) > -100000 and st_xmax(plan) < 100000
      and st_ymin(plan) > -100000 and st_ymax(plan) < 100000)', t, t || '_near');
  end loop;
end $$;
