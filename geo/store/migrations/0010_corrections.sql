-- Why a record was put right or struck out, told by the person who did it; kept after the record itself is gone.
create table corrections (
  id text primary key check (id <> ''),
  "on" date not null,
  kind text not null check (kind <> ''),
  record text not null check (record <> ''),
  deed text not null check (deed in ('changed', 'removed')),
  reason text not null check (reason <> ''),
  was text,
  now text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on corrections (kind, record);
create trigger within_step before insert or update or delete on corrections
  for each statement execute function within_step();
