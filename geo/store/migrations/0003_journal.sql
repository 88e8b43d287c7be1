-- Every change to a farm record is kept with its step (one act of one person), field by field, geometry as hex EWKB.
create table steps (
  id text primary key,
  clock text not null unique,
  device text not null,
  author text,
  label text not null,
  undoes text references steps,
  ord bigint generated always as identity
);
create index on steps (undoes);

create table changes (
  step text not null references steps on delete cascade,
  n integer not null,
  kind text not null,
  record text not null,
  before jsonb,
  after jsonb,
  primary key (step, n),
  check (before is not null or after is not null)
);
create index on changes (kind, record);

-- Nothing is written to a farm record outside a step.
create function within_step() returns trigger language plpgsql as $$
begin
  if coalesce(current_setting('selion.step', true), '') = '' then
    raise exception using errcode = 'SL002', message = format('%s was to be written outside a step', tg_table_name);
  end if;
  return null;
end $$;
do $$
declare t text;
begin
  foreach t in array array['farm', 'crops', 'varieties', 'containers', 'systems', 'system_parts', 'system_work',
    'fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations', 'plantings', 'picks', 'shares',
    'dressings', 'stock_lots', 'stock_moves', 'photos']
  loop
    execute format('create trigger within_step before insert or update or delete on %I for each statement execute function within_step()', t);
  end loop;
end $$;
