-- Work that the grower timed on a run.
create table support_work (
  id text primary key check (id <> ''),
  support text not null references supports,
  "on" date not null,
  work text not null check (work in ('put up', 'tend', 'take down')),
  minutes double precision not null check (minutes > 0 and minutes < 'infinity'),
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on support_work (support);
create trigger within_step before insert or update or delete on support_work
  for each statement execute function within_step();

-- Whether posts that stand already serve a run: those of the same part, any, or none (as where it is not told).
alter table supports add column reuse_posts text check (reuse_posts in ('same part', 'any post', 'none'));
