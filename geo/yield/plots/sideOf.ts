import type { LongAxis } from '../../plane/longAxis.ts'
import type { Ring } from '../ring.ts'
import { ringsCentroid } from '../ring.ts'

/** Where in a bed something stands. */
export type Side = 'north edge' | 'south edge' | 'east edge' | 'west edge' | 'middle'

/** Nearer the middle than this share of the width is the middle: a third of the bed. */
const MIDDLE_SHARE = 1 / 6

/**
 * The side of a bed that some ground of it lies on, by compass: beds nearer to east–west have a north and a south edge,
 * others an east and a west edge.
 */
export function sideOf(ground: readonly Ring[], axis: LongAxis, widthM: number): Side {
  const [x, y] = ringsCentroid(ground)
  const across = axis.ux * y - axis.uy * x - axis.middleM
  if (Math.abs(across) < MIDDLE_SHARE * widthM) return 'middle'
  // Across counts to the left of the axis: towards (−uy, ux).
  const [east, north] = [-axis.uy * across, axis.ux * across]
  if (Math.abs(axis.ux) >= Math.abs(axis.uy)) return north > 0 ? 'north edge' : 'south edge'
  return east > 0 ? 'east edge' : 'west edge'
}
