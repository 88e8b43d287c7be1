/** The middle of some numbers; of an even count the mean of the two middle ones. Throws where there are none. */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new Error('no median of nothing')
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2
}

/** Makes the median of absolute deviations the standard deviation of a normal scatter: 1 / Φ⁻¹(3/4). */
const MAD_TO_SD = 1.482602218505602

/** A robust standard deviation: the median of absolute deviations from the median, scaled (Hampel 1974, JASA 69, 383–393). */
export function robustSd(values: readonly number[]): number {
  const middle = median(values)
  return MAD_TO_SD * median(values.map((value) => Math.abs(value - middle)))
}
