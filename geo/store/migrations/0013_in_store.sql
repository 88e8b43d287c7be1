-- Parts of supports in store, by the name that systems call them.
create table stores (
  id text primary key check (id <> ''),
  part text not null check (part <> ''),
  count integer check (count >= 0),
  metres double precision check (metres >= 0 and metres < 'infinity'),
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create trigger within_step before insert or update or delete on stores
  for each statement execute function within_step();

-- Days from setting out until a crop needs its support, where the grower knows it.
alter table crops add column support_after_days integer check (support_after_days between 0 and 400);
