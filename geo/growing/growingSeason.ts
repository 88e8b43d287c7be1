import { seasonOf } from '../yield/season.ts'
import { addDays } from './days.ts'

/** What is set out in the last quarter of a season and stands beyond it grows in the next, as autumn garlic does. */
const LAST_QUARTER_DAYS = 92

/** The season that a planting grows in: the one it is set out in, or the next where it is set out in the last 92 days of it and stands into that. */
export function growingSeason(setOut: string, cleared: string | null, startMonth: number): number {
  const coming = seasonOf(addDays(setOut, LAST_QUARTER_DAYS), startMonth)
  return cleared === null ? coming : Math.min(coming, lastSeason(setOut, cleared, startMonth))
}

/** The last season that a planting stands in: it stands until the day before it is cleared. */
export function lastSeason(setOut: string, cleared: string, startMonth: number): number {
  const last = addDays(cleared, -1)
  return seasonOf(last < setOut ? setOut : last, startMonth)
}
