import type { Database } from '../store/database.ts'
import { isBreakage } from './isBreakage.ts'

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

/** How near a run something must be seen to be of it, in metres. */
export const SEEN_WITHIN_M = 1.5

/** Every run up to a day with what was seen broken on it. */
export async function supportsWear(db: Database, on: string, seasonStartMonth: number): Promise<WornRun[]> {
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
     where o."on" <= $1::date and standing(s.put_up, s.taken_down, o."on")
     order by o.id, st_distance(o.plan, s.plan), s.ord`,
    [on],
  )
  const broken = seen.filter(({ kind, note }) => isBreakage(kind, note)).sort((a, b) => (a.on < b.on ? -1 : 1))
  const bySupport = new Map<string, Breakage[]>()
  for (const { support, ...breakage } of broken) bySupport.set(support, [...(bySupport.get(support) ?? []), breakage])
  const seasonOf = (day: string) => Number(day.slice(0, 4)) - (Number(day.slice(5, 7)) < seasonStartMonth ? 1 : 0)
  return runs.map((run) => ({
    ...run,
    seasons: run.putUp === null ? null : seasonOf(run.takenDown ?? on) - seasonOf(run.putUp) + 1,
    breakages: bySupport.get(run.id) ?? [],
  }))
}
