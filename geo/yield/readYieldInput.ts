import type { LineString, Polygon } from 'geojson'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { ringsOfPolygon } from './ring.ts'
import type { Line } from './rowStretch.ts'
import { seasonSpan } from './season.ts'
import type { PickSums, YieldBed, YieldInput, YieldPlanting } from './yieldInput.ts'

/** All that a season's yield is reckoned from: ground in the farm's plane, picks summed by where they were told of. */
export async function readYieldInput(db: Database, season: number): Promise<YieldInput> {
  const [input] = await readYieldInputs(db, [season])
  return input!
}

/** The same of several seasons, in their order, with the same beds. */
export async function readYieldInputs(db: Database, seasons: readonly number[]): Promise<YieldInput[]> {
  const beds = await db.rows<Shape>(`select id, encode(st_asewkb(plan), 'hex') as shape from beds order by ord`)
  const ground = beds.map(({ id, shape }) => ({ id, rings: ringsOfPolygon((fromEwkb(shape) as Polygon).coordinates) }))
  const inputs: YieldInput[] = []
  for (const season of seasons) inputs.push(await readSeason(db, season, ground))
  return inputs
}

async function readSeason(db: Database, season: number, beds: readonly YieldBed[]): Promise<YieldInput> {
  const [farm] = await db.rows<{ month: number }>('select season_start_month as month from farm')
  const span = seasonSpan(season, farm?.month ?? 1)
  const days = [span.from, span.to]
  const plantings = await db.rows<Omit<YieldPlanting, 'middle'> & { middle: string | null }>(PLANTINGS, days)
  const rows = await db.rows<Shape & { bed: string }>(
    `select id, bed, encode(st_asewkb(plan), 'hex') as shape from rows where id = any($1)`,
    [[...new Set(plantings.flatMap(({ row }) => row ?? []))]],
  )
  return {
    season,
    span,
    beds,
    rows: rows.map(({ id, bed, shape }) => ({ id, bed, line: lineOf(shape) })),
    plantings: plantings.map((p) => ({ ...p, middle: p.middle === null ? null : lineOf(p.middle) })),
    picks: await readPickSums(db, days),
  }
}

type Shape = { readonly id: string; readonly shape: string }

/**
 * Plantings that count to the season from $1 to $2: those picked in it, and of the rest those that stood in it and are
 * not left for a later one: not cleared after its end, nor set out after their crop was last picked in it (garlic set in
 * October answers for next summer).
 */
const PLANTINGS = `with picked as (
    select k.planting, max(k."on") as last_on from picks k where k."on" between $1::date and $2::date group by k.planting
  ), last_picked as (
    select v.crop, max(k.last_on) as last_on
    from picked k join plantings p on p.id = k.planting join varieties v on v.id = p.variety group by v.crop
  ), counted as (
    select p.*, v.crop from plantings p
    join varieties v on v.id = p.variety
    left join picked k on k.planting = p.id
    left join last_picked l on l.crop = v.crop
    where k.planting is not null
      or (p.set_out <= $2::date and p.cleared > $1::date and p.cleared <= $2::date)
      or (p.cleared is null and p.set_out <= least($2::date, coalesce(l.last_on, $2::date)))
  )
  select p.id, coalesce(r.bed, p.bed) as bed, p.row, p.crop, p.from_m as "fromM", p.to_m as "toM",
    p.set_out as "setOut", p.cleared,
    case when p.row is null and num_nonnulls(p.from_m, p.to_m) > 0
      then encode(st_asewkb(long_middle(b.plan)), 'hex') end as middle
  from counted p
  left join rows r on r.id = p.row
  left join beds b on b.id = p.bed
  order by p.ord`

async function readPickSums(db: Database, days: readonly string[]): Promise<PickSums> {
  const sums = await db.rows<{
    planting: string | null
    bed: string | null
    x: number | null
    y: number | null
    kg: number | null
    picks: number
    unweighed: number
  }>(
    `select planting, bed, st_x(plan) as x, st_y(plan) as y, sum(kg) as kg, count(kg)::integer as picks,
      count(*) filter (where kg is null)::integer as unweighed
     from picks where "on" between $1::date and $2::date
     group by planting, bed, st_x(plan), st_y(plan) order by min(ord)`,
    days,
  )
  const weighed = sums.flatMap((sum) => (sum.kg === null ? [] : [{ ...sum, kg: sum.kg }]))
  return {
    plantings: weighed.flatMap(({ planting, kg, picks }) => (planting === null ? [] : [{ planting, kg, picks }])),
    beds: weighed.flatMap(({ bed, kg, picks }) => (bed === null ? [] : [{ bed, kg, picks }])),
    spots: weighed.flatMap(({ x, y, kg, picks }) => (x === null || y === null ? [] : [{ x, y, kg, picks }])),
    unweighed: sums.reduce((total, sum) => total + sum.unweighed, 0),
  }
}

function lineOf(hex: string): Line {
  return (fromEwkb(hex) as LineString).coordinates.flatMap((p) => [p[0]!, p[1]!])
}
