import { percentile } from '../compareGroups.ts'
import { normalBelow, quantileNormal } from '../normal.ts'

/**
 * Bias-corrected and accelerated bootstrap interval: percentiles of the redraws at Φ(z₀ + (z₀ + z)/(1 − a(z₀ + z))), z₀
 * the normal quantile of the share of redraws below the estimate, a from the jackknife, Σd³/6(Σd²)^1.5 with d the mean
 * of the left-one-out values less each (Efron & Tibshirani 1993, An Introduction to the Bootstrap, 14.3). `redraws` is
 * sorted. Null where the redraws don't tell: all on one side of the estimate, or no spread.
 */
export function bcaInterval(
  estimate: number,
  redraws: Float64Array,
  leftOneOut: readonly number[],
  outside = 0.05,
): { low: number; high: number } | null {
  const below = redraws.reduce((sum, value) => sum + (value < estimate ? 1 : value === estimate ? 0.5 : 0), 0)
  if (below === 0 || below === redraws.length) return null
  const z0 = quantileNormal(below / redraws.length)
  const mean = leftOneOut.reduce((sum, value) => sum + value / leftOneOut.length, 0)
  let cubes = 0
  let squares = 0
  for (const value of leftOneOut) {
    cubes += (mean - value) ** 3
    squares += (mean - value) ** 2
  }
  if (squares === 0) return null
  const a = cubes / (6 * squares ** 1.5)
  const at = (share: number): number => {
    const z = z0 + quantileNormal(share)
    return percentile(redraws, normalBelow(z0 + z / (1 - a * z)))
  }
  return { low: at(outside / 2), high: at(1 - outside / 2) }
}
