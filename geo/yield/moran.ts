import { spreadOf } from './giStar.ts'
import { twoSidedP } from './normal.ts'

/** Moran's I, what chance alone would give, its variance if the values were dealt out at random, and the test. */
export type Moran = {
  readonly i: number
  readonly expected: number
  readonly variance: number
  readonly z: number
  readonly p: number
}

/**
 * Moran's I with row-standardised weights (each place's neighbours share a weight of 1) and its randomisation variance
 * (Cliff & Ord 1981, Spatial Processes, p. 46). Neighbour lists are mutual and none is empty. Null for fewer than four
 * places or values without spread.
 */
export function moran(values: readonly number[], neighbours: readonly (readonly number[])[]): Moran | null {
  const { n, mean, sd } = spreadOf(values)
  if (n < 4 || sd === 0) return null
  const share = neighbours.map((near, i) => {
    if (near.length === 0) throw new Error(`place ${i} has no neighbour`)
    return 1 / near.length
  })
  let cross = 0
  let m4 = 0
  let s1 = 0
  let s2 = 0
  for (let i = 0; i < n; i += 1) {
    const z = values[i]! - mean
    let lag = 0
    let column = 0
    for (const j of neighbours[i]!) {
      lag += share[i]! * (values[j]! - mean)
      column += share[j]!
      s1 += (share[i]! + share[j]!) ** 2 / 2
    }
    cross += z * lag
    m4 += z ** 4
    s2 += (1 + column) ** 2
  }
  const m2 = n * sd * sd
  const kurtosis = (n * m4) / (m2 * m2)
  const expected = -1 / (n - 1)
  const free = n * ((n * n - 3 * n + 3) * s1 - n * s2 + 3 * n * n)
  const tied = kurtosis * ((n * n - n) * s1 - 2 * n * s2 + 6 * n * n)
  const variance = (free - tied) / ((n - 1) * (n - 2) * (n - 3) * n * n) - expected * expected
  const i = cross / m2
  const z = (i - expected) / Math.sqrt(variance)
  return { i, expected, variance, z, p: twoSidedP(z) }
}
