-- How a photo placed by control points was placed, and how each photo is shown: its strength, whether it is shown, on
-- every sheet too, and its place in the pile (later ones lie on earlier ones).
alter table photos add column placed_by jsonb;
alter table photos add column opacity double precision check (opacity between 0 and 1);
alter table photos add column shown boolean;
alter table photos add column on_every_sheet boolean;
alter table photos add column pile integer check (pile >= 0)
