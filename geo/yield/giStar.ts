/** What G needs of all the values: how many, their mean, and their standard deviation over n (not n − 1). */
export type Spread = { readonly n: number; readonly mean: number; readonly sd: number }

/** Mean and spread of values; `sd` is exactly 0 where they differ by no more than rounding. */
export function spreadOf(values: readonly number[]): Spread {
  const n = values.length
  let mean = 0
  for (const v of values) mean += v / n
  let squares = 0
  for (const v of values) squares += (v - mean) ** 2
  const sd = Math.sqrt(squares / n)
  return { n, mean, sd: sd <= 1e-12 * Math.abs(mean) ? 0 : sd }
}

/**
 * Standardised G of a set of places with weight 1 each: how far the sum of their values lies from what their number
 * leads to expect, in standard deviations. Null where that can't be told: no spread, or the set is everything.
 * z = (Σx − k·X̄) / (S·√((n·k − k²)/(n − 1))), Ord & Getis 1995, Geographical Analysis 27:286–306, eq. 14.
 */
export function gOfSet(values: readonly number[], set: readonly number[], { n, mean, sd }: Spread): number | null {
  const k = set.length
  if (sd === 0 || k === 0 || k >= n) return null
  let over = 0
  for (const j of set) over += values[j]! - mean
  return over / (sd * Math.sqrt((k * (n - k)) / (n - 1)))
}

/**
 * Gi* of each place: G of the place itself and its neighbours (`neighbours[i]` leaves i out).
 */
export function giStar(values: readonly number[], neighbours: readonly (readonly number[])[]): (number | null)[] {
  const spread = spreadOf(values)
  return values.map((_, i) => gOfSet(values, [i, ...neighbours[i]!], spread))
}
