import type { Database } from '../store/database.ts'
import type { PlantingNamed } from './nearPlantings.ts'

/** What was told in the last picks, the latest first: what a person is offered, so that nothing need be typed. */
export interface PickHabits {
  /** The units that each crop was picked in; `crop` null is of picks told of a bed or a spot. */
  readonly units: readonly { readonly crop: string | null; readonly unit: string }[]
  readonly pickers: readonly string[]
  readonly grades: readonly string[]
  readonly receivers: readonly string[]
  readonly uses: readonly string[]
  /** The plantings picked last of those that stand on the day. */
  readonly places: readonly PlantingNamed[]
}

/** How many of the picks entered last are looked at, and how many places are told. */
const LOOKED_AT = 400
const PLACES = 6

/** Reads the habits from the picks entered last, in the order of entering, not of their days. */
export async function pickHabits(db: Database, on: string): Promise<PickHabits> {
  const rows = await db.rows<{ what: string; crop: string | null; value: string }>(
    `with latest as materialized (
       select k.id, k.unit, k.picker, k.grade, k.ord, v.crop from
         (select * from picks order by ord desc limit ${LOOKED_AT}) k
         left join plantings p on p.id = k.planting left join varieties v on v.id = p.variety
     ), told as (
       select 'unit' as what, crop, unit as value, ord from latest
       union all select 'picker', null, picker, ord from latest where picker is not null
       union all select 'grade', null, grade, ord from latest where grade is not null
       union all select 'receiver', null, s."to", k.ord from latest k join shares s on s.pick = k.id
       union all select 'use', null, s.use, k.ord from latest k join shares s on s.pick = k.id where s.use is not null
     )
     select what, crop, value from told group by 1, 2, 3 order by max(ord) desc`,
  )
  const places = await db.rows<PlantingNamed>(
    `select p.id as planting, c.id as crop, c.name as "cropName", v.name as variety, b.id as bed, b.name as "bedName",
       coalesce(r.side, r.name) as side
     from (
       select planting, max(ord) as ord from (select planting, ord from picks order by ord desc limit ${LOOKED_AT}) k
       where planting is not null group by 1
     ) k join plantings p on p.id = k.planting join varieties v on v.id = p.variety join crops c on c.id = v.crop
     left join rows r on r.id = p.row join beds b on b.id = coalesce(r.bed, p.bed)
     where standing(p.set_out, p.cleared, $1::date) order by k.ord desc limit ${PLACES}`,
    [on],
  )
  const listed = (what: string) => rows.filter((row) => row.what === what).map((row) => row.value)
  return {
    units: rows.filter((row) => row.what === 'unit').map(({ crop, value }) => ({ crop, unit: value })),
    pickers: listed('picker'),
    grades: listed('grade'),
    receivers: listed('receiver'),
    uses: listed('use'),
    places,
  }
}
