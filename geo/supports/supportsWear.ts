import type { LineString } from 'geojson'
import { HELD_WITHIN_M } from '../measure/held.ts'
import type { Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'

/** Something seen broken on a run. */
export interface Breakage {
  readonly observation: string
  readonly on: string
  readonly kind: string
  readonly severity: number | null
  readonly note: string | null
}

/** A run of any year: how long it stood or stands, and what was seen broken on it. */
export interface WornRun {
  readonly id: string
  readonly system: string
  readonly systemName: string
  readonly field: string | null
  readonly bed: string | null
  readonly lengthM: number
  readonly permanent: boolean
  readonly putUp: string | null
  readonly takenDown: string | null
  /** Seasons that it stood in up to the day; null where nobody told when it was put up. */
  readonly seasons: number | null
  readonly breakages: readonly Breakage[]
}

/** What a planting gave along the run that held most of it. */
export interface HeldYield {
  readonly planting: string
  readonly crop: string
  readonly cropName: string
  readonly system: string
  readonly kg: number
  readonly rowM: number
}

export interface SupportsWear {
  readonly runs: readonly WornRun[]
  readonly yields: readonly HeldYield[]
}

/** How near a run something must be seen to be of it, in metres. */
export const SEEN_WITHIN_M = 1.5

/** Kinds of observation that tell of something broken about a support. */
export const BREAKAGE =
  '(broken|slack|snapped|sagg).*(string|line|wire|pole|post|stake|twine|panel|clip)|(leaning|split|rotten|loose).*(post|pole|stake|end)|(post|pole|stake|end)s? (lean|split|rotten|loose)|torn net|net torn|\\mcrack'

/** Every run up to a day with what was seen broken on it, and what plantings gave along them. */
export async function supportsWear(db: Database, on: string, seasonStartMonth: number): Promise<SupportsWear> {
  const runs = await db.rows<Omit<WornRun, 'breakages' | 'seasons'>>(
    `select s.id, s.system, y.name as "systemName", p.field, p.bed, st_length(s.plan) as "lengthM",
      coalesce(s.permanent, false) as permanent, s.put_up as "putUp",
      case when s.taken_down <= $1::date then s.taken_down end as "takenDown"
     from supports s join systems y on y.id = s.system join support_places p on p.support = s.id
     where s.put_up is null or s.put_up <= $1::date order by s.ord`,
    [on],
  )
  const seen = await db.rows<Breakage & { support: string }>(
    `select distinct on (o.id) o.id as observation, o."on", o.kind, o.severity, o.note, s.id as support
     from observations o join supports s on st_dwithin(o.plan, s.plan, ${SEEN_WITHIN_M})
     where o."on" <= $1::date and o.kind ~* $2 and standing(s.put_up, s.taken_down, o."on")
     order by o.id, st_distance(o.plan, s.plan), s.ord`,
    [on, BREAKAGE],
  )
  const bySupport = new Map<string, Breakage[]>()
  for (const { support, ...breakage } of seen.sort((a, b) => (a.on < b.on ? -1 : 1)))
    bySupport.set(support, [...(bySupport.get(support) ?? []), breakage])
  const seasonOf = (day: string) => Number(day.slice(0, 4)) - (Number(day.slice(5, 7)) < seasonStartMonth ? 1 : 0)
  return {
    runs: runs.map((run) => ({
      ...run,
      seasons: run.putUp === null ? null : seasonOf(run.takenDown ?? on) - seasonOf(run.putUp) + 1,
      breakages: bySupport.get(run.id) ?? [],
    })),
    yields: await heldYields(db, on),
  }
}

interface Near {
  readonly planting: string
  readonly crop: string
  readonly crop_name: string
  readonly kg: number
  readonly row_m: number
  readonly line: string
  readonly supports: { system: string; line: string }[] | null
}

/** Plantings cleared by a day and picked, each under the system that held most of it, where that was half of it at least. */
async function heldYields(db: Database, on: string): Promise<HeldYield[]> {
  const rows = await db.rows<Near>(
    `with picked as (
       select planting, sum(kg) as kg from picks where planting is not null and kg is not null group by planting
     )
     select t.planting, t.crop, c.name as crop_name, k.kg, st_length(t.plan) as row_m,
       encode(st_asewkb(t.plan), 'hex') as line,
       (select jsonb_agg(jsonb_build_object('system', s.system, 'line', encode(st_asewkb(s.plan), 'hex')))
        from supports s where st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M})
          and (s.put_up is null or s.put_up < t.cleared) and (s.taken_down is null or s.taken_down > t.set_out)) as supports
     from picked k join stretches t on t.planting = k.planting join crops c on c.id = t.crop
     where t.climbs and t.cleared <= $1::date and st_length(t.plan) > 0`,
    [on],
  )
  return rows.flatMap(({ planting, crop, crop_name, kg, row_m, line, supports }) => {
    const row = lineOf(line)
    if (row.length < 2) return []
    const bySystem = new Map<string, (readonly Metres[])[]>()
    for (const one of supports ?? []) bySystem.set(one.system, [...(bySystem.get(one.system) ?? []), lineOf(one.line)])
    const [most] = [...bySystem]
      .map(([system, lines]) => ({ system, heldM: spansLength(spansWithin(row, lines, HELD_WITHIN_M)) }))
      .sort((a, b) => b.heldM - a.heldM)
    if (!most || most.heldM < row_m / 2) return []
    return [{ planting, crop, cropName: crop_name, system: most.system, kg, rowM: row_m }]
  })
}

function lineOf(hex: string): readonly Metres[] {
  const shape = fromEwkb(hex)
  return shape.type === 'LineString' ? ((shape as LineString).coordinates as unknown as Metres[]) : []
}
