import type { Database } from '../store/database.ts'
import type { Measured, MeasuredBed, MeasuredField } from './measured.ts'

/** How far from a support a row may run and still be held by it, in metres. */
export const HELD_WITHIN_M = 0.6

/**
 * Measures every field and bed as on a day (`YYYY-MM-DD`), in the farm's plane. A support counts to the field and to
 * the bed that hold most of it. A climbing planting's stretch is held where it runs within 0.6 m of a support standing
 * that day; held + unheld is its whole length. Given `onlyBeds`, only those beds and their fields.
 */
export async function measure(db: Database, on: string, onlyBeds: readonly string[] | null = null): Promise<Measured> {
  const fieldIds = onlyBeds
    ? (await db.rows<{ field: string }>('select distinct field from beds where id = any($1)', [onlyBeds])).map(
        (r) => r.field,
      )
    : null
  return { fields: await measureFields(db, on, fieldIds), beds: await measureBeds(db, on, onlyBeds) }
}

/** Each climbing planting standing on day $1 in the beds of a query: its length and the part that is held. */
const heldIn = (beds: string) => `select t.bed, t.planting, st_length(t.plan) as climbing_m,
    coalesce(st_length(st_intersection(t.plan, near.around)), 0) as held_m
  from stretches t
  left join lateral (
    select st_union(st_buffer(s.plan, ${HELD_WITHIN_M}, 16)) as around from supports s
    where st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M}) and standing(s.put_up, s.taken_down, $1::date)
  ) near on true
  where t.climbs and standing(t.set_out, t.cleared, $1::date) and t.bed in (${beds})`

export async function measureBeds(db: Database, on: string, only: readonly string[] | null): Promise<MeasuredBed[]> {
  return db.rows<MeasuredBed>(
    `with held as (${heldIn('select id from beds where $2::text[] is null or id = any($2)')}),
    shape as (
      select b.*, st_area(b.plan) as area_m2, long_middle(b.plan) as middle, standing(b.made, b.retired, $1::date) as stands
      from beds b where $2::text[] is null or b.id = any($2)
    )
    select b.id, b.field, b.name, b.area_m2, st_length(b.middle) as length_m, b.area_m2 / st_length(b.middle) as width_m,
      coalesce(mod(degrees(st_azimuth(st_startpoint(b.middle), st_endpoint(b.middle)))::numeric + 180, 180), 0)::double precision as bearing_deg,
      case when b.stands then coalesce(r.row_m, 0) else 0 end as row_m,
      coalesce(s.support_m, 0) as support_m, coalesce(h.climbing_m, 0) as climbing_m,
      coalesce(h.climbing_m - h.held_m, 0) as unheld_m
    from shape b
    left join (select bed, sum(st_length(plan)) as row_m from rows group by bed) r on r.bed = b.id
    left join (select p.bed, sum(st_length(s.plan)) as support_m from supports s join support_places p on p.support = s.id
      where standing(s.put_up, s.taken_down, $1::date) and ($2::text[] is null or p.bed = any($2)) group by p.bed) s on s.bed = b.id
    left join (select bed, sum(climbing_m) as climbing_m, sum(held_m) as held_m from held group by bed) h on h.bed = b.id
    order by b.ord`,
    [on, only],
  )
}

export async function measureFields(
  db: Database,
  on: string,
  only: readonly string[] | null,
): Promise<MeasuredField[]> {
  return db.rows<MeasuredField>(
    `with held as (${heldIn('select id from beds where $2::text[] is null or field = any($2)')}),
    beds_there as (select * from beds where standing(made, retired, $1::date)),
    placed as (
      select p.field, y.name, st_length(s.plan) as length_m from supports s
      join systems y on y.id = s.system join support_places p on p.support = s.id
      where standing(s.put_up, s.taken_down, $1::date)
    )
    select f.id, f.name, st_area(f.plan) as area_m2, coalesce(b.bed_count, 0)::integer as bed_count,
      coalesce(b.bed_area_m2, 0) as bed_area_m2, coalesce(r.row_m, 0) as row_m,
      coalesce((select jsonb_object_agg(y.name, coalesce((select sum(length_m) from placed where placed.field = f.id and placed.name = y.name), 0))
        from systems y), '{}'::jsonb) as support_m,
      coalesce(h.climbing_m, 0) as climbing_m, coalesce(h.held_m, 0) as held_m,
      coalesce(h.climbing_m - h.held_m, 0) as unheld_m
    from fields f
    left join (select field, count(*) as bed_count, sum(st_area(plan)) as bed_area_m2 from beds_there group by field) b on b.field = f.id
    left join (select b.field, sum(st_length(r.plan)) as row_m from rows r join beds_there b on b.id = r.bed group by b.field) r on r.field = f.id
    left join (select b.field, sum(h.climbing_m) as climbing_m, sum(h.held_m) as held_m from held h join beds b on b.id = h.bed group by b.field) h on h.field = f.id
    where $2::text[] is null or f.id = any($2)
    order by f.ord`,
    [on, only],
  )
}
