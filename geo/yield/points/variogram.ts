import type { ValuedPoint } from './valuedPoint.ts'

/** Pairs of points about so far apart: how many, their mean distance, and half the mean square of their difference. */
export interface VariogramBin {
  readonly pairs: number
  readonly distanceM: number
  readonly gamma: number
}

const BINS = 15

/**
 * Empirical semivariogram: pairs up to a third of the diagonal of the points' box, in 15 bins as wide (Matheron's
 * estimator; the cut-off and bins are those of R's gstat). Pairs of one place are left out. Of more than 2,000 points
 * every so many is taken, so that some 2,000 are.
 */
export function variogram(all: readonly ValuedPoint[]): VariogramBin[] {
  const step = Math.ceil(all.length / MOST)
  const points = all.filter((_, k) => k % step === 0)
  const span = (values: readonly number[]): number =>
    values.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY) -
    values.reduce((m, v) => Math.min(m, v), Number.POSITIVE_INFINITY)
  const cutOff = Math.hypot(span(points.map(({ x }) => x)), span(points.map(({ y }) => y))) / 3
  const width = cutOff / BINS
  const sums = Array.from({ length: BINS }, () => ({ pairs: 0, distance: 0, squares: 0 }))
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i]!
    for (let j = 0; j < i; j += 1) {
      const b = points[j]!
      const apart = Math.hypot(a.x - b.x, a.y - b.y)
      if (apart === 0 || apart > cutOff) continue
      // A pair on the edge of two bins is the nearer one's, to rounding.
      const bin = sums[Math.min(BINS - 1, Math.max(0, Math.ceil(apart / width - 1e-12) - 1))]!
      bin.pairs += 1
      bin.distance += apart
      bin.squares += (a.value - b.value) ** 2
    }
  }
  return sums.flatMap(({ pairs, distance, squares }) =>
    pairs === 0 ? [] : [{ pairs, distanceM: distance / pairs, gamma: squares / pairs / 2 }],
  )
}

const MOST = 2000
