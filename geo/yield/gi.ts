import { spreadOf } from './giStar.ts'

/**
 * Gi of each place: the sum over its neighbours, itself left out of the sum and of the mean and spread it is held
 * against. Null where that can't be told.
 * z = (Σx − k·x̄(i)) / (s(i)·√(k·(n − 1 − k)/(n − 2))), Ord & Getis 1995, Geographical Analysis 27:286–306, eq. 12.
 */
export function gi(values: readonly number[], neighbours: readonly (readonly number[])[]): (number | null)[] {
  return values.map((_, i) => {
    const { n, mean, sd } = spreadOf(values.filter((_, j) => j !== i))
    const near = neighbours[i]!
    const k = near.length
    if (sd === 0 || k === 0 || k >= n) return null
    const over = near.reduce((sum, j) => sum + values[j]! - mean, 0)
    return over / (sd * Math.sqrt((k * (n - k)) / (n - 1)))
  })
}
