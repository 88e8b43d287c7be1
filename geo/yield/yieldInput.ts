import type { Ring } from './ring.ts'
import type { Line } from './rowStretch.ts'
import type { SeasonSpan } from './season.ts'

/** A bed's outline in the farm's plane. */
export type YieldBed = { readonly id: string; readonly rings: readonly Ring[] }

export type YieldRow = { readonly id: string; readonly bed: string; readonly line: Line }

/** A planting, whether or not it stood in the season; `row` null where only its bed is known. */
export type YieldPlanting = {
  readonly id: string
  readonly bed: string
  readonly row: string | null
  readonly crop: string
  readonly fromM: number | null
  readonly toM: number | null
  readonly setOut: string
  /** The day from which it no longer stands; null while it does. */
  readonly cleared: string | null
  /** The long middle of its bed, for a planting told only by bed that stands in a stretch of it. */
  readonly middle: Line | null
}

/** Mass and number of picks told of one place. */
export type PickSum = { readonly kg: number; readonly picks: number }

/** What was picked in the season, summed by planting, by bed and by spot (metres in the plane). */
export type PickSums = {
  readonly plantings: readonly (PickSum & { readonly planting: string })[]
  readonly beds: readonly (PickSum & { readonly bed: string })[]
  readonly spots: readonly (PickSum & { readonly x: number; readonly y: number })[]
  /** Number of picks left out because nothing says what their unit weighs. */
  readonly unweighed: number
}

/** All that yield is reckoned from, for one season. */
export type YieldInput = {
  readonly season: number
  readonly span: SeasonSpan
  readonly beds: readonly YieldBed[]
  readonly rows: readonly YieldRow[]
  readonly plantings: readonly YieldPlanting[]
  readonly picks: PickSums
}

/** Something about the figures that the person should know; `ids` are the records it is about. */
export type YieldNote = {
  readonly kind:
    | 'picks-unweighed'
    | 'spots-moved'
    | 'spots-without-bed'
    | 'strips-off-bed'
    | 'picks-of-unknown-crop'
    | 'crops-planted-once'
    | 'spread-evenly'
  readonly ids: readonly string[]
  readonly detail: string
}
