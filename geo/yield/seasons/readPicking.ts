import type { Database } from '../../store/database.ts'
import type { LoosePick, PickedKg } from './pickedByCrop.ts'

/** What was picked of a crop in a season and told by planting. */
export interface CropPicked extends PickedKg {
  readonly season: number
  readonly crop: string
}

/** Seasons in which something was picked, oldest first. */
export async function seasonsPicked(db: Database): Promise<number[]> {
  const seasons = await db.rows<{ season: number }>(
    `select distinct ${SEASON} as season from picks k cross join farm f order by season`,
  )
  return seasons.map(({ season }) => season)
}

/** Picks told by planting, by crop and season, up to the season of `from`, the first day of the season looked at. */
export function readPicked(db: Database, from: string, on: string): Promise<CropPicked[]> {
  return db.rows<CropPicked>(PICKED, [from, on])
}

/** The same of picks told by bed or by spot, one by one, by season and in the order of their days. */
export function readLoosePicks(
  db: Database,
  from: string,
  on: string,
): Promise<(LoosePick & { readonly season: number })[]> {
  return db.rows(LOOSE, [from, on])
}

/** Usual yields of the crops whose records tell any. */
export function readUsualYields(
  db: Database,
): Promise<{ crop: string; lowKgPerM2: number; highKgPerM2: number; source: string | null }[]> {
  return db.rows(
    `select id as crop, coalesce(yield_low_kg_per_m2, yield_high_kg_per_m2) as "lowKgPerM2",
      coalesce(yield_high_kg_per_m2, yield_low_kg_per_m2) as "highKgPerM2", yield_source as source
     from crops where num_nonnulls(yield_low_kg_per_m2, yield_high_kg_per_m2) > 0`,
  )
}

/** A day less so many months lies in the year of its season. */
const SEASON = `extract(year from k."on" - make_interval(months => f.season_start_month - 1))::integer`

/** Whether a pick lies no later in its season than the day $2 in the season that begins on $1. */
const BY_DAY = `"on" <= make_date(season, month, 1) + ($2::date - $1::date)`

const PICKED = `with dated as (
    select ${SEASON} as season, v.crop, k.kg, k."on", f.season_start_month as month
    from picks k join plantings p on p.id = k.planting join varieties v on v.id = p.variety cross join farm f
    where k.kg is not null
  )
  select season, crop, sum(kg) as kg, coalesce(sum(kg) filter (where ${BY_DAY}), 0) as "byDayKg"
  from dated where season <= extract(year from $1::date) group by season, crop order by season, crop`

const LOOSE = `with dated as (
    select ${SEASON} as season, k.bed, st_x(k.plan) as x, st_y(k.plan) as y, k.kg, k."on", k.ord,
      f.season_start_month as month
    from picks k cross join farm f where k.planting is null and k.kg is not null
  )
  select season, "on", ${BY_DAY} as "byDay", bed, x, y, kg
  from dated where season <= extract(year from $1::date) order by "on", ord`
