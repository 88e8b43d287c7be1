import type { SupportWork } from '../model/supports.ts'
import type { Database } from '../store/database.ts'
import { compareGroups } from '../yield/compareGroups.ts'
import { seasonOf } from '../yield/season.ts'
import type { TimedWork } from './timedRecipe.ts'
import type { WorkPhase } from './workPhase.ts'

/** What was timed on one run on one day. */
export interface Timing {
  readonly support: string
  readonly system: string
  readonly lengthM: number
  readonly on: string
  readonly work: SupportWork['work']
  readonly minutes: number
}

/** Fewer times or runs than this are too little to tell how far such a figure may be off (common practice). */
export const ENOUGH = 5
/** Redraws begin here, so that the same records give the same bounds. */
export const SEED = 20260301

const PHASE: Readonly<Record<SupportWork['work'], WorkPhase>> = {
  'put up': 'putting up',
  tend: 'each season',
  'take down': 'taking down',
}

/** What the records up to a day tell of the time that systems take. */
export async function timedWork(db: Database, on: string, startMonth: number): Promise<TimedWork[]> {
  const timings = await db.rows<Timing>(
    `select w.support, s.system, st_length(s.plan) as "lengthM", w."on", w.work, w.minutes
     from support_work w join supports s on s.id = w.support where w."on" <= $1::date order by w."on", w.ord`,
    [on],
  )
  return timedBySystem(timings, startMonth)
}

/**
 * Minutes for each metre by system and phase: all that was timed over the metres of the runs that it was timed on, each
 * run once a season, with a bootstrap over runs and seasons. A season in which nothing was timed on a run is not known,
 * not nothing.
 */
export function timedBySystem(timings: readonly Timing[], startMonth: number): TimedWork[] {
  const times = new Map<string, { system: string; phase: WorkPhase; kg: number; rowM: number }>()
  for (const { support, system, lengthM, on, work, minutes } of timings) {
    if (!(lengthM > 0)) continue
    const key = JSON.stringify([support, work, seasonOf(on, startMonth)])
    const one = times.get(key) ?? { system, phase: PHASE[work], kg: 0, rowM: lengthM }
    times.set(key, { ...one, kg: one.kg + minutes })
  }
  const groupOf = (system: string, phase: WorkPhase) => JSON.stringify([system, phase])
  return compareGroups(
    [...times.values()].map(({ system, phase, kg, rowM }) => ({ group: groupOf(system, phase), kg, rowM })),
    SEED,
  ).map(({ group, plantings, kgPerRowM, low, high }) => {
    const [system, phase] = JSON.parse(group) as [string, WorkPhase]
    const tells = plantings >= ENOUGH
    return {
      system,
      phase,
      times: plantings,
      minutesPerM: kgPerRowM,
      low: tells ? low : null,
      high: tells ? high : null,
    }
  })
}
