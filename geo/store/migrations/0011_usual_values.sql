-- What is usual of a crop, each value beside its source: closest spacing along a row, range of yield, whether what is
-- eaten touches the soil, days to the first pick, years that a planting stands.
alter table crops
  add column climbs_source text,
  add column juglone_sure text check (juglone_sure in ('listed', 'inferred', 'not listed')),
  add column return_source text,
  add column usual_spacing_m double precision check (usual_spacing_m > 0 and usual_spacing_m < 'infinity'),
  add column spacing_source text,
  add column yield_low_kg_per_m2 double precision check (yield_low_kg_per_m2 >= 0 and yield_low_kg_per_m2 < 'infinity'),
  add column yield_high_kg_per_m2 double precision check (yield_high_kg_per_m2 >= 0 and yield_high_kg_per_m2 < 'infinity'),
  add column yield_source text,
  add column touches_soil boolean,
  add column touches_soil_source text,
  add column first_pick_days double precision check (first_pick_days >= 0 and first_pick_days < 'infinity'),
  add column first_pick_source text,
  add column stands_years double precision check (stands_years > 0 and stands_years < 'infinity'),
  add column stands_source text,
  add constraint crops_yield_range check (yield_high_kg_per_m2 >= yield_low_kg_per_m2);
