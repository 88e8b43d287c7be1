-- To whom plants are promised or went, the day they are wanted, and a note; pictures of what was seen or put on.
alter table stock_moves add column "to" text, add column due date, add column note text;
alter table observations add column photo text;
alter table dressings add column photo text;

-- No more plants leave a lot than it holds, on no day, in whatever order the moves are entered. Besides the sums of
-- 0006: plants that died in the ground can't be lifted later. A loss counts to plants lifted before it as long as there
-- are any, so that nothing is refused that may be true; within a day lifting comes before losses.
create or replace function moves_within_lot() returns trigger language plpgsql as $$
declare
  lot record;
  day record;
  in_store bigint;
  from_store bigint;
  lifted bigint;
  died_in_ground bigint;
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
        message = format('lot %s holds %s plants: that many can''t be sold, lost, lifted or reserved', lot.kind, lot.count),
        detail = new.id;
    end if;
    in_store := 0;
    lifted := 0;
    died_in_ground := 0;
    for day in
      select m."on", coalesce(sum(m.count) filter (where m.move = 'lifted'), 0) as lifted,
        coalesce(sum(m.count) filter (where m.move = 'lost'), 0) as lost
      from stock_moves m where m.lot = lot.id and m.move in ('lifted', 'lost') group by m."on" order by m."on"
    loop
      lifted := lifted + day.lifted;
      in_store := in_store + day.lifted;
      from_store := least(in_store, day.lost);
      in_store := in_store - from_store;
      died_in_ground := died_in_ground + day.lost - from_store;
      if lifted + died_in_ground > lot.count then
        raise exception using errcode = 'SL001', constraint = 'moves_within_lot', table = 'stock_moves', column = 'count',
          message = format('on %s lot %s would have %s more plants lifted than stood: %s were raised and %s had died in the ground',
            day."on", lot.kind, lifted + died_in_ground - lot.count, lot.count, died_in_ground),
          detail = new.id;
      end if;
    end loop;
  end loop;
  return null;
end $$;

-- Plants of a lot that still stand at the end of a day: raised less lifted and died in the ground. The greatest excess of
-- losses over lifting on any day before is what can't have died in the store.
create function stock_standing(lot_id text, raised integer, day date) returns bigint language sql stable as $$
  select greatest(0, raised
    - coalesce(sum(m.count) filter (where m.move = 'lifted'), 0) - greatest(0, coalesce(max(m.excess), 0)))::bigint
  from (
    select move, count, sum(case move when 'lost' then count else -count end) over (order by "on") as excess
    from stock_moves where lot = lot_id and move in ('lifted', 'lost') and "on" <= day
  ) m
$$;
