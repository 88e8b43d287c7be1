import { denseRuns } from './denseRuns.ts'
import { type PlaneFix, R95, UNTOLD_M, USELESS_M } from './fix.ts'
import { median, robustSd } from './median.ts'

/** Positions on either side that one is held against while walking. */
const HALF_WINDOW = 5
/** Farther from the middle than this many standard deviations is an outlier. */
const MOST_SD = 3
/** No scatter is believed to be less than this, in metres. */
const LEAST_SD_M = 0.1

/**
 * Which positions of a walk to leave out: those less sure than 30 m, and by Hampel's rule those that lie, east or north,
 * more than three robust standard deviations from the median of themselves and the five before and after (Hampel 1974,
 * JASA 69, 383–393; Davies & Gather 1993, JASA 88, 782–792, for its use as an identifier). Only where positions are dense
 * can the rule tell an outlier from a corner; so none is sought elsewhere, and the deviation is not believed to be less
 * than what the device itself says of these positions, nor than the usual step between them. True is an outlier.
 */
export function walkOutliers(fixes: readonly PlaneFix[]): boolean[] {
  const usable = fixes.flatMap((fix, n) => (isUseless(fix) ? [] : [n]))
  const out = fixes.map(isUseless)
  for (const { at, stepM } of denseRuns(fixes, usable))
    at.forEach((n, k) => {
      const near = at.slice(Math.max(0, k - HALF_WINDOW), k + HALF_WINDOW + 1).map((m) => fixes[m]!)
      out[n] = near.length > 3 && liesOff(fixes[n]!, near, stepM)
    })
  return out
}

/** The same of positions told while standing still, each held against all of them. */
export function heldOutliers(fixes: readonly PlaneFix[]): boolean[] {
  const usable = fixes.filter((fix) => !isUseless(fix))
  return fixes.map((fix) => isUseless(fix) || (usable.length > 3 && liesOff(fix, usable, 0)))
}

const isUseless = ({ accuracyM }: PlaneFix) => accuracyM !== null && accuracyM > USELESS_M

function liesOff(fix: PlaneFix, near: readonly PlaneFix[], stepM: number): boolean {
  const told = near.flatMap(({ accuracyM }) => accuracyM ?? [])
  const saidSd = (told.length > 0 ? median(told) : UNTOLD_M) / R95
  return ([0, 1] as const).some((axis) => {
    const values = near.map(({ at }) => at[axis])
    const sd = Math.max(robustSd(values), saidSd, stepM, LEAST_SD_M)
    return Math.abs(fix.at[axis] - median(values)) > MOST_SD * sd
  })
}
