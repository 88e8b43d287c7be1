import type { Database } from '../store/database.ts'
import { type ListedPick, listPicks } from './listPicks.ts'
import { type BedPicked, pickedByBed } from './pickedByBed.ts'
import { type CropWeek, pickedByCrop } from './pickedByCrop.ts'
import { type PersonPicked, pickedByPerson } from './pickedByPerson.ts'
import { type PickedFor, pickedForWhom } from './pickedForWhom.ts'
import type { Days } from './pickPlaces.ts'
import { pickRhythm, type Rhythm } from './pickRhythm.ts'

/** A season's picking from its first day to the day looked at. */
export interface SeasonPicking extends Days {
  readonly weeks: readonly CropWeek[]
  readonly beds: readonly BedPicked[]
  readonly people: readonly PersonPicked[]
  readonly forWhom: readonly PickedFor[]
  readonly rhythm: readonly Rhythm[]
  /** The latest picks of these days, `LISTED` at most. */
  readonly picks: readonly ListedPick[]
  /** Picks whose container has no weight: they count in no mass. */
  readonly unweighed: number
}

const LISTED = 300

/** All that the Picking sheet tells of a season up to a day. */
export async function seasonPicking(db: Database, days: Days): Promise<SeasonPicking> {
  const [left] = await db.rows<{ count: number }>(
    'select count(*)::integer as count from picks where "on" between $1::date and $2::date and kg is null',
    [days.from, days.to],
  )
  return {
    ...days,
    weeks: await pickedByCrop(db, days),
    beds: await pickedByBed(db, days),
    people: await pickedByPerson(db, days),
    forWhom: await pickedForWhom(db, days),
    rhythm: await pickRhythm(db, days),
    picks: await listPicks(db, days, LISTED),
    unweighed: left!.count,
  }
}
