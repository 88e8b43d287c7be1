-- Plans of where permanent supports should stand: what was asked and what was answered, as JSON text.
create table siting_plans (
  id text primary key check (id <> ''),
  name text not null check (name <> ''),
  made date not null,
  asked text not null check (jsonb_typeof(asked::jsonb) = 'object'),
  answer text check (jsonb_typeof(answer::jsonb) = 'object'),
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create trigger within_step before insert or update or delete on siting_plans
  for each statement execute function within_step();
