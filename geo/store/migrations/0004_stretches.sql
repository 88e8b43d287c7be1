-- What stands on a day: from its first day to the day before it goes; a day not known does not bound.
create function standing(since date, until date, day date) returns boolean
language sql immutable as $$
  select (since is null or since <= day) and (until is null or until > day)
$$;

-- The long middle of a bed: the line through the middle of its least rectangle, along the long axis.
create function long_middle(bed geometry) returns geometry
language sql immutable as $$
  select case when st_distance(a, b) >= st_distance(b, c)
    then st_makeline(st_centroid(st_makeline(a, d)), st_centroid(st_makeline(b, c)))
    else st_makeline(st_centroid(st_makeline(a, b)), st_centroid(st_makeline(d, c))) end
  from (select st_pointn(ring, 1) a, st_pointn(ring, 2) b, st_pointn(ring, 3) c, st_pointn(ring, 4) d
    from (select st_exteriorring(st_orientedenvelope(bed)) as ring) r) corners
$$;

-- The stretch of a line from one distance along it to another (metres); an end not given is the line's own.
create function stretch_of(line geometry, from_m double precision, to_m double precision) returns geometry
language sql immutable as $$
  select st_linesubstring(line, least(coalesce(from_m, 0) / length_m, 1), least(coalesce(to_m, length_m) / length_m, 1))
  from (select st_length(line) as length_m) l
$$;

-- Each planting's stretch in the plane: of its row, or of its bed's long middle.
create view stretches as
select p.id as planting, p.row, coalesce(r.bed, p.bed) as bed, p.variety, v.crop, coalesce(c.climbs, false) as climbs,
  p.set_out, p.cleared, stretch_of(coalesce(r.plan, long_middle(b.plan)), p.from_m, p.to_m) as plan
from plantings p
join varieties v on v.id = p.variety
join crops c on c.id = v.crop
left join rows r on r.id = p.row
left join beds b on b.id = p.bed and p.row is null;

-- The field and the bed that hold most of each support; the bed is looked for within 0.6 m. Lengths within are only
-- reckoned where there is more than one to choose from.
create view support_places as
select s.id as support, f.id as field, b.id as bed
from supports s
left join lateral (
  select id from (select id, plan, ord, count(*) over () as choices from fields where st_intersects(plan, s.plan)) c
  order by case when choices > 1 then st_length(st_intersection(plan, s.plan)) end desc, ord limit 1
) f on true
left join lateral (
  select id from (select id, plan, ord, count(*) over () as choices from beds where st_dwithin(plan, s.plan, 0.6)) c
  order by case when choices = 1 then 0 when st_covers(plan, s.plan) then st_length(s.plan)
    when st_intersects(plan, s.plan) then st_length(st_intersection(plan, s.plan)) else -st_distance(plan, s.plan) end desc, ord
  limit 1
) b on true;

-- Where the farm's plane touches the earth.
create function plane_lon() returns double precision language sql stable as $$
  select substring(proj4text from 'lon_0=([^ ]+)')::double precision from spatial_ref_sys where srid = 990001
$$;

-- Lon/lat of a shape in the plane, in one piece about the 180th meridian.
create function lon_lat(plan geometry) returns geometry language sql stable as $$
  select case when abs(lon) < 170 then g when lon > 0 then st_shiftlongitude(g)
    else st_translate(st_shiftlongitude(g), -360, 0) end
  from (select st_transform(plan, 4326) as g, plane_lon() as lon) t
$$;
