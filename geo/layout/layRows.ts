import { longAxis } from '../plane/longAxis.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Area } from './area.ts'
import { openGround, openSpans } from './openSpans.ts'
import { bearingOf, turnedFrame } from './turnedFrame.ts'

/** Where in a bed a row lies, as seen along the bed's bearing (0 to below 180 degrees): by thirds of the bed's width. */
export type RowSide = 'left' | 'middle' | 'right'

/** How a bed is to be filled with rows along its long axis. */
export interface RowPlan {
  /** At named sides, spread evenly, or at a spacing with what is left over shared by both edges. */
  readonly by: { readonly sides: readonly RowSide[] } | { readonly count: number } | { readonly spacingM: number }
  /** From the bed's long edges to the nearest row, at least. */
  readonly edgeM: number
  /** From the bed's ends to the ends of the rows. */
  readonly endM: number
}

export interface LaidRow {
  /** From one end to the other along the bed's bearing. */
  readonly line: readonly [Metres, Metres]
  readonly lengthM: number
  readonly side: RowSide
  /** The bed's bearing, as which its sides are told: 0 to below 180 degrees. */
  readonly bearingDeg: number
}

/** A row on the very edge would be neither in nor out. */
const LEAST_EDGE_M = 1e-3
const LEAST_ROW_M = 0.1
/** More rows in one bed than this are a slip of the pen. */
export const MOST_ROWS = 500

/**
 * Fills a bed with rows, from its left edge to its right; each is as long as the bed is there. Empty where the bed is
 * narrower than its edge distances, or more than 500 rows would lie in it.
 */
export function layRows(bed: Area, plan: RowPlan): readonly LaidRow[] {
  const axis = longAxis(bed[0] ?? [])
  if (!axis) return []
  const bearingDeg = bearingOf([axis.ux, axis.uy])
  const frame = turnedFrame(bearingDeg)
  const rights = (bed[0] ?? []).map((at) => frame.toTurned(at)[1])
  const middleM = (Math.min(...rights) + Math.max(...rights)) / 2
  const outline = bed.map((ring) => ring.map(frame.toTurned))
  const ground = openGround(outline, { byM: plan.endM, how: 'along' }, [])
  return offsetsOf(axis.acrossM, plan).flatMap((offsetM): LaidRow[] => {
    const right = middleM + offsetM
    const spans = openSpans(ground, { leftM: right, rightM: right })
    const longest = spans.reduce((best, span) => (span[1] - span[0] > best[1] - best[0] ? span : best), [0, 0])
    const [from, to] = longest
    if (to - from < LEAST_ROW_M) return []
    return [
      {
        line: [frame.toPlane([from, right]), frame.toPlane([to, right])],
        lengthM: to - from,
        bearingDeg,
        side: Math.abs(offsetM) < axis.acrossM / 6 ? 'middle' : offsetM < 0 ? 'left' : 'right',
      },
    ]
  })
}

/** How far to the right of the bed's middle each row lies. */
function offsetsOf(acrossM: number, { by, edgeM }: RowPlan): readonly number[] {
  const reachM = acrossM / 2 - Math.max(edgeM, LEAST_EDGE_M)
  if (reachM < 0) return []
  if ('sides' in by)
    return (['left', 'middle', 'right'] as const).flatMap((side, n) =>
      by.sides.includes(side) ? [(n - 1) * reachM] : [],
    )
  const many = 'count' in by ? by.count : Math.floor((2 * reachM) / by.spacingM + 1e-9) + 1
  if (!(many >= 1 && many <= MOST_ROWS)) return []
  if (many === 1) return [0]
  const gapM = 'count' in by ? (2 * reachM) / (many - 1) : by.spacingM
  return Array.from({ length: many }, (_, n) => (n - (many - 1) / 2) * gapM)
}
