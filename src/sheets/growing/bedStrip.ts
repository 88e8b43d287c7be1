import type { BedHistory } from '../../desk/door.ts'
import { showDay } from '../show/dates.ts'
import { dayOf, daysBetween, seasonEnds, seasonOfDay } from '../show/days.ts'

/** A planting in the strip: shares (0–1) of the strip's time and of its row's length. */
export interface StripBlock {
  readonly planting: string
  readonly crop: string
  readonly family: string
  readonly from: number
  readonly to: number
  readonly top: number
  readonly share: number
  readonly planned: boolean
  readonly words: string
}

export interface BedStripPlaces {
  readonly seasons: readonly { readonly season: number; readonly at: number }[]
  readonly lanes: readonly {
    readonly row: string | null
    readonly name: string
    readonly blocks: readonly StripBlock[]
  }[]
  /** Families in the order in which they were first set out. */
  readonly families: readonly string[]
  /** The day shown. */
  readonly now: number
  readonly words: string
}

/** At most so many seasons are drawn, the newest of them. */
const MOST_SEASONS = 5

/** Lays a bed's history out: from the season of its first planting, or the last five, to the season shown or planned last. */
export function bedStrip(
  history: BedHistory,
  on: string,
  startMonth: number,
  today = dayOf(new Date()),
): BedStripPlaces {
  const seasonOf = (day: string) => seasonOfDay(day, startMonth)
  const shown = seasonOf(on)
  const ends = history.stood.map(({ setOut }) => seasonOf(setOut))
  const last = Math.max(shown, ...ends)
  const first = Math.max(Math.min(shown, ...ends), last - MOST_SEASONS + 1)
  const from = seasonEnds(first, startMonth).from
  const days = daysBetween(from, seasonEnds(last, startMonth).next)
  const at = (day: string) => Math.max(0, Math.min(1, daysBetween(from, day) / days))
  const seasons = Array.from({ length: last - first + 1 }, (_, i) => ({
    season: first + i,
    at: at(seasonEnds(first + i, startMonth).from),
  }))
  const lanes = history.lanes.flatMap(({ row, name, lengthM }) => {
    const blocks = history.stood
      .filter((stood) => stood.row === row && (stood.cleared === null || stood.cleared > from))
      .map((stood): StripBlock => {
        const { planting, crop, variety, family, span, setOut, cleared } = stood
        const open = cleared === null ? 'standing still' : `to ${showDay(cleared)}`
        return {
          planting,
          crop,
          family,
          from: at(setOut),
          to: cleared === null ? 1 : at(cleared),
          top: lengthM > 0 ? span[0] / lengthM : 0,
          share: lengthM > 0 ? (span[1] - span[0]) / lengthM : 1,
          planned: setOut > today,
          words: `${name}: ${crop}, ${variety} (${family}), ${showDay(setOut)} ${open}${setOut > today ? ', planned' : ''}`,
        }
      })
    return blocks.length > 0 || row !== null ? [{ row, name, blocks }] : []
  })
  const families = [
    ...new Set(
      lanes
        .flatMap(({ blocks }) => blocks)
        .sort((a, b) => a.from - b.from)
        .map(({ family }) => family),
    ),
  ]
  const count = lanes.reduce((sum, { blocks }) => sum + blocks.length, 0)
  return { seasons, lanes, families, now: at(on), words: `${count} plantings from ${first} to ${last}, listed below` }
}
