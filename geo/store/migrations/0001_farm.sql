-- Geometry: lon/lat in geom; plan is the same in the farm's plane (metres). Validity is looked at in the plane,
-- where a shape on the 180th meridian is in one piece.
create sequence record_order;

create table farm (
  id text primary key check (id = 'farm'),
  name text not null check (name <> ''),
  origin_lon double precision check (origin_lon between -180 and 180),
  origin_lat double precision check (origin_lat between -90 and 90),
  timezone text,
  units text not null default 'metric' check (units in ('metric', 'us')),
  currency text,
  season_start_month integer not null default 1 check (season_start_month between 1 and 12),
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  check ((origin_lon is null) = (origin_lat is null))
);

create table crops (
  id text primary key check (id <> ''),
  name text not null check (name <> ''),
  family text not null check (family <> ''),
  climbs boolean,
  juglone text check (juglone in ('sensitive', 'tolerant', 'unknown')),
  juglone_source text,
  return_years double precision check (return_years >= 0 and return_years < 'infinity'),
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);

create table varieties (
  id text primary key check (id <> ''),
  crop text not null references crops,
  name text not null check (name <> ''),
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on varieties (crop);

create table containers (
  id text primary key check (id <> ''),
  unit text not null check (unit <> ''),
  kg double precision not null check (kg > 0 and kg < 'infinity'),
  crop text references crops,
  source text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create unique index containers_unit_crop on containers (unit, coalesce(crop, ''));

create table systems (
  id text primary key check (id <> ''),
  name text not null check (name <> ''),
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);

create table system_parts (
  id text primary key check (id <> ''),
  system text not null references systems,
  part text not null check (part <> ''),
  rule text not null check (rule <> ''),
  unit_cost double precision check (unit_cost >= 0 and unit_cost < 'infinity'),
  lasts_seasons double precision check (lasts_seasons > 0 and lasts_seasons < 'infinity'),
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on system_parts (system);

create table system_work (
  id text primary key check (id <> ''),
  system text not null references systems,
  work text not null check (work <> ''),
  minutes_per_m double precision check (minutes_per_m >= 0 and minutes_per_m < 'infinity'),
  "when" text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on system_work (system);

create table fields (
  id text primary key check (id <> ''),
  name text not null check (name <> ''),
  note text,
  geom geometry not null,
  plan geometry(Geometry, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint fields_shape check (st_srid(geom) = 4326 and geometrytype(geom) in ('POLYGON', 'MULTIPOLYGON') and not st_isempty(geom)),
  constraint fields_valid check (st_isvalid(plan))
);
create index fields_plan on fields using gist (plan);

create table beds (
  id text primary key check (id <> ''),
  field text not null references fields,
  name text not null check (name <> ''),
  made date,
  retired date,
  note text,
  outside_accepted boolean,
  geom geometry not null,
  plan geometry(Polygon, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint beds_shape check (st_srid(geom) = 4326 and geometrytype(geom) = 'POLYGON' and not st_isempty(geom)),
  constraint beds_valid check (st_isvalid(plan)),
  constraint beds_days check (retired >= made)
);
create index on beds (field);
create index beds_plan on beds using gist (plan);

create table rows (
  id text primary key check (id <> ''),
  bed text not null references beds,
  name text,
  side text,
  outside_accepted boolean,
  geom geometry not null,
  plan geometry(LineString, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint rows_shape check (st_srid(geom) = 4326 and geometrytype(geom) = 'LINESTRING' and not st_isempty(geom)),
  constraint rows_valid check (st_isvalid(plan))
);
create index on rows (bed);
create index rows_plan on rows using gist (plan);

create table trees (
  id text primary key check (id <> ''),
  species text not null check (species <> ''),
  name text,
  planted date,
  removed date,
  height_m double precision check (height_m >= 0 and height_m < 'infinity'),
  canopy_radius_m double precision check (canopy_radius_m >= 0 and canopy_radius_m < 'infinity'),
  measured date,
  rootstock text,
  juglone text check (juglone in ('source', 'none')),
  geom geometry not null,
  plan geometry(Point, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint trees_shape check (st_srid(geom) = 4326 and geometrytype(geom) = 'POINT' and not st_isempty(geom)),
  constraint trees_valid check (st_isvalid(plan)),
  constraint trees_days check (removed >= planted)
);
create index trees_plan on trees using gist (plan);

create table supports (
  id text primary key check (id <> ''),
  system text not null references systems,
  put_up date,
  taken_down date,
  permanent boolean,
  height_m double precision check (height_m >= 0 and height_m < 'infinity'),
  note text,
  geom geometry not null,
  plan geometry(LineString, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint supports_shape check (st_srid(geom) = 4326 and geometrytype(geom) = 'LINESTRING' and not st_isempty(geom)),
  constraint supports_valid check (st_isvalid(plan)),
  constraint supports_days check (taken_down >= put_up)
);
create index on supports (system);
create index supports_plan on supports using gist (plan);

create table structures (
  id text primary key check (id <> ''),
  kind text not null check (kind <> ''),
  name text,
  note text,
  geom geometry not null,
  plan geometry(Geometry, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint structures_shape check (st_srid(geom) = 4326 and not st_isempty(geom)),
  constraint structures_valid check (st_isvalid(plan))
);
create index structures_plan on structures using gist (plan);

create table observations (
  id text primary key check (id <> ''),
  "on" date not null,
  kind text not null check (kind <> ''),
  severity integer check (severity between 1 and 5),
  note text,
  geom geometry not null,
  plan geometry(Point, 990001) generated always as (st_force2d(st_transform(geom, 990001))) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint observations_shape check (st_srid(geom) = 4326 and geometrytype(geom) = 'POINT' and not st_isempty(geom)),
  constraint observations_valid check (st_isvalid(plan))
);
create index observations_plan on observations using gist (plan);

create table plantings (
  id text primary key check (id <> ''),
  row text references rows,
  bed text references beds,
  variety text not null references varieties,
  from_m double precision check (from_m >= 0 and from_m < 'infinity'),
  to_m double precision check (to_m > 0 and to_m < 'infinity'),
  set_out date not null,
  cleared date,
  plants integer check (plants >= 0),
  spacing_m double precision check (spacing_m > 0 and spacing_m < 'infinity'),
  purpose text,
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint plantings_place check (row is not null or bed is not null),
  constraint plantings_days check (cleared >= set_out),
  constraint plantings_stretch check (from_m < to_m)
);
create index on plantings (row);
create index on plantings (bed);
create index on plantings (variety);

create table picks (
  id text primary key check (id <> ''),
  "on" date not null,
  planting text references plantings,
  bed text references beds,
  lon double precision check (lon between -540 and 540),
  lat double precision check (lat between -90 and 90),
  quantity double precision not null check (quantity > 0 and quantity < 'infinity'),
  unit text not null check (unit <> ''),
  grade text,
  picker text,
  note text,
  kg_per_unit double precision check (kg_per_unit > 0 and kg_per_unit < 'infinity'),
  kg double precision generated always as (quantity * kg_per_unit) stored,
  plan geometry(Point, 990001) generated always as
    (case when lon is null or lat is null then null
      else st_transform(st_setsrid(st_makepoint(lon, lat), 4326), 990001) end) stored,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint picks_place check (num_nonnulls(planting, bed, lon) = 1 and (lon is null) = (lat is null))
);
create index on picks (planting);
create index on picks (bed);
create index on picks ("on");

create table shares (
  id text primary key check (id <> ''),
  pick text not null references picks,
  "to" text not null check ("to" <> ''),
  part double precision not null check (part between 0 and 1),
  use text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on shares (pick);

create table dressings (
  id text primary key check (id <> ''),
  "on" date not null,
  bed text not null references beds,
  material text not null check (material <> ''),
  kg_per_m2 double precision check (kg_per_m2 >= 0 and kg_per_m2 < 'infinity'),
  raw_manure boolean,
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on dressings (bed);

create table stock_lots (
  id text primary key check (id <> ''),
  kind text not null check (kind <> ''),
  bed text references beds,
  row text references rows,
  year integer check (year between 1 and 9999),
  count integer not null check (count >= 0),
  grade text,
  price double precision check (price >= 0 and price < 'infinity'),
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order'),
  constraint stock_lots_place check (row is not null or bed is not null)
);
create index on stock_lots (bed);
create index on stock_lots (row);

create table stock_moves (
  id text primary key check (id <> ''),
  lot text not null references stock_lots,
  "on" date not null,
  move text not null check (move in ('reserved', 'sold', 'lifted', 'lost')),
  count integer not null check (count >= 0),
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
create index on stock_moves (lot);

create table photos (
  id text primary key check (id <> ''),
  file text not null check (file <> ''),
  name text,
  "on" date,
  corners jsonb,
  control_points jsonb,
  residuals jsonb,
  note text,
  extra jsonb not null default '{}',
  ord bigint not null default nextval('record_order')
);
