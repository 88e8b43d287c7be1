import type { Metres } from '../plane/lonLat.ts'
import type { Span } from '../plane/within.ts'
import type { Ground, GroundBed } from './ground.ts'
import { sharedGround } from './shares.ts'
import { lineLengthM, type Stand, spanAlong, standsOf } from './stand.ts'

/** A row of a bed, or the bed's whole width (`row` null), with where it lies along and across the bed's middle. */
export interface Lane {
  readonly row: string | null
  readonly name: string
  readonly lengthM: number
  readonly along: Span
  /** True where the row is drawn against the direction of the bed's middle. */
  readonly back: boolean
}

/** What stood in a stretch, from when until when. */
export interface Stood {
  readonly planting: string
  readonly row: string | null
  readonly crop: string
  readonly variety: string
  readonly family: string
  readonly span: Span
  readonly along: Span
  readonly back: boolean
  readonly bed: string
  readonly setOut: string
  readonly cleared: string | null
}

/** All that stands, stood and is planned in a bed. Lanes lie from north to south, or from west to east in a bed that runs north and south. */
export interface BedHistory {
  readonly bed: string
  readonly name: string
  readonly lengthM: number
  readonly lanes: readonly Lane[]
  readonly stood: readonly Stood[]
}

/** A bed's history; null where the ground has no such bed. */
export function historyOf(ground: Ground, id: string): BedHistory | null {
  const bed = ground.beds.get(id)
  if (!bed) return null
  return {
    bed: id,
    name: bed.name,
    lengthM: lineLengthM(bed.middle),
    lanes: lanesOf(ground, bed),
    stood: standsOf(ground)
      .filter((stand) => stand.bed === id)
      .map(stoodOf)
      .sort((a, b) => (a.setOut < b.setOut ? -1 : 1)),
  }
}

/** The rows of a bed, from north to south or from west to east, and its whole width last. */
export function lanesOf(ground: Ground, bed: GroundBed): Lane[] {
  const lengthM = lineLengthM(bed.middle)
  const rows = [...ground.rows.values()].filter((row) => row.bed === bed.id)
  const lanes = inOrderAcross(rows, bed.middle).map((row): Lane => {
    const at = [row.line[0]!, row.line.at(-1)!].map((end) => spanAlong(bed.middle, [end])[0])
    return {
      row: row.id,
      name: row.side ?? row.name ?? 'row',
      lengthM: lineLengthM(row.line),
      along: spanAlong(bed.middle, row.line),
      back: at[0]! > at[1]!,
    }
  })
  const whole: Lane = { row: null, name: 'whole width', lengthM, along: [0, lengthM], back: false }
  return [...lanes, whole]
}

/** Rows of a bed from north to south, or from west to east where the bed runs nearer north–south. */
export function inOrderAcross<R extends { readonly line: readonly Metres[] }>(
  rows: readonly R[],
  middle: readonly Metres[],
): R[] {
  const [a, b] = [middle[0]!, middle.at(-1)!]
  const eastWest = Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1])
  const place = ({ line }: R) => {
    const [first, last] = [line[0]!, line.at(-1)!]
    return eastWest ? -(first[1] + last[1]) : first[0] + last[0]
  }
  return [...rows].sort((one, other) => place(one) - place(other))
}

function stoodOf({ planting, crop, variety, row, span, along, back, bed }: Stand): Stood {
  return {
    planting: planting.id,
    row,
    crop: crop.name,
    variety,
    family: crop.family,
    span,
    along,
    back,
    bed,
    setOut: planting.set_out,
    cleared: planting.cleared,
  }
}

/** A span of a lane as metres along the bed's middle; exact where the row is straight. */
export function alongOf({ along, back }: Lane, [from, to]: Span): Span {
  return back ? [along[1] - to, along[1] - from] : [along[0] + from, along[0] + to]
}

/** What stood on a stretch of a lane and was set out before a day, the latest first. */
export function stoodBefore(history: BedHistory, lane: Lane, span: Span, before: string): Stood[] {
  const here = { bed: history.bed, row: lane.row, span, along: alongOf(lane, span), back: lane.back }
  return history.stood
    .filter((stood) => stood.setOut < before && stood.cleared !== stood.setOut && sharedGround(here, stood))
    .sort((a, b) => (a.setOut < b.setOut ? 1 : -1))
}
