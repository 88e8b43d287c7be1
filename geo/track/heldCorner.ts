import type { Metres } from '../plane/lonLat.ts'
import type { PlaneFix } from './fix.ts'
import { median } from './median.ts'
import { heldOutliers } from './outliers.ts'

/** A corner at which the person stood still. */
export interface HeldCorner {
  readonly at: Metres
  /** How sure it is, as a radius for 95 in 100; null where the device never said. */
  readonly accuracyM: number | null
  /** How far the positions lie from their mean: root mean square, in metres. */
  readonly spreadM: number
  readonly used: number
  readonly leftOut: number
}

/**
 * The mean of the positions told while standing still, outliers left out. Null where none is left. Its accuracy is the
 * median of what the device said, not divided by the root of their count: positions a second apart err together, so that
 * a minute's mean is steadier than one position but hardly truer.
 */
export function heldCorner(fixes: readonly PlaneFix[]): HeldCorner | null {
  const out = heldOutliers(fixes)
  const used = fixes.filter((_, n) => !out[n])
  if (used.length === 0) return null
  const mean = (axis: 0 | 1) => used.reduce((sum, { at }) => sum + at[axis], 0) / used.length
  const at: Metres = [mean(0), mean(1)]
  const squares = used.reduce((sum, fix) => sum + (fix.at[0] - at[0]) ** 2 + (fix.at[1] - at[1]) ** 2, 0)
  const told = used.flatMap(({ accuracyM }) => accuracyM ?? [])
  return {
    at,
    accuracyM: told.length > 0 ? median(told) : null,
    spreadM: Math.sqrt(squares / used.length),
    used: used.length,
    leftOut: fixes.length - used.length,
  }
}
