import type { Database } from '../store/database.ts'
import { climbingStretches } from './held.ts'
import type { Measured, MeasuredBed, MeasuredField } from './measured.ts'
import { type SupportRun, supportRuns } from './supportRuns.ts'

/**
 * Measures every field and bed as on a day (`YYYY-MM-DD`), in the farm's plane. A support counts to the field and to
 * the bed that hold most of it. A climbing planting's stretch is held where it runs within 0.6 m of a support standing
 * that day; held + unheld is its whole length. Given fields, only those and their beds.
 */
export async function measure(
  db: Database,
  on: string,
  onlyFields: readonly string[] | null = null,
): Promise<Measured> {
  const shapes = await db.rows<{ id: string; name: string; area_m2: number }>(
    'select id, name, st_area(plan) as area_m2 from fields where $1::text[] is null or id = any($1) order by ord',
    [onlyFields],
  )
  const systems = await db.rows<{ name: string }>('select distinct name from systems order by name')
  const runs = await supportRuns(db, on, onlyFields && { fields: onlyFields })
  const ids = onlyFields && (await bedsOf(db, onlyFields))
  const beds = await bedsWith(db, on, ids, runs)
  const fields = shapes.map(({ id, name, area_m2 }): MeasuredField => {
    const own = beds.filter((bed) => bed.field === id)
    const there = own.filter((bed) => bed.standing)
    const climbing_m = total(own, (bed) => bed.climbing_m)
    const unheld_m = total(own, (bed) => bed.unheld_m)
    const supports = runs.filter((run) => run.field === id)
    const lengthOf = (system: string) =>
      total(
        supports.filter((run) => run.system_name === system),
        (run) => run.length_m,
      )
    return {
      id,
      name,
      area_m2,
      bed_count: there.length,
      bed_area_m2: total(there, (bed) => bed.area_m2),
      row_m: total(there, (bed) => bed.row_m),
      support_m: Object.fromEntries(systems.map((system) => [system.name, lengthOf(system.name)])),
      climbing_m,
      held_m: climbing_m - unheld_m,
      unheld_m,
    }
  })
  return { fields, beds: beds.map(({ standing: _, ...bed }) => bed) }
}

/** Measures the beds named, as on a day. */
export async function measureBeds(db: Database, on: string, beds: readonly string[]): Promise<MeasuredBed[]> {
  const measured = await bedsWith(db, on, beds, await supportRuns(db, on, { beds }))
  return measured.map(({ standing: _, ...bed }) => bed)
}

type StandingBed = MeasuredBed & { readonly standing: boolean }

async function bedsWith(
  db: Database,
  on: string,
  only: readonly string[] | null,
  runs: readonly SupportRun[],
): Promise<StandingBed[]> {
  const shapes = await db.rows<Omit<StandingBed, 'support_m' | 'climbing_m' | 'unheld_m'>>(BEDS, [on, only])
  const supported = new Map<string, number>()
  for (const { bed, length_m } of runs) if (bed !== null) supported.set(bed, (supported.get(bed) ?? 0) + length_m)
  const climbing = new Map<string, { climbing_m: number; unheld_m: number }>()
  for (const { bed, lengthM, heldM } of await climbingStretches(db, on, only && { beds: only })) {
    const sum = climbing.get(bed) ?? { climbing_m: 0, unheld_m: 0 }
    climbing.set(bed, { climbing_m: sum.climbing_m + lengthM, unheld_m: sum.unheld_m + lengthM - heldM })
  }
  return shapes.map((bed) => ({
    ...bed,
    support_m: supported.get(bed.id) ?? 0,
    ...(climbing.get(bed.id) ?? { climbing_m: 0, unheld_m: 0 }),
  }))
}

const BEDS = `with shape as materialized (
    select id, field, name, ord, st_area(plan) as area_m2, long_middle(plan) as middle,
      standing(made, retired, $1::date) as standing
    from beds where $2::text[] is null or id = any($2)
  ), row_metres as (
    select bed, sum(st_length(plan)) as row_m from rows where $2::text[] is null or bed = any($2) group by bed
  )
  select b.id, b.field, b.name, b.area_m2, st_length(b.middle) as length_m, b.area_m2 / st_length(b.middle) as width_m,
    case when azimuth >= 180 then azimuth - 180 else azimuth end as bearing_deg,
    case when b.standing then coalesce(r.row_m, 0) else 0 end as row_m, b.standing
  from shape b
  cross join lateral (select degrees(st_azimuth(st_startpoint(b.middle), st_endpoint(b.middle))) as azimuth) a
  left join row_metres r on r.bed = b.id
  order by b.ord`

async function bedsOf(db: Database, fields: readonly string[]): Promise<string[]> {
  const rows = await db.rows<{ id: string }>('select id from beds where field = any($1)', [fields])
  return rows.map((row) => row.id)
}

function total<T>(of: readonly T[], value: (one: T) => number): number {
  return of.reduce((sum, one) => sum + value(one), 0)
}
