import { cholesky, solveLower } from '../cholesky.ts'
import type { ValuedPoint } from './valuedPoint.ts'
import { alike, type VariogramModel } from './variogramModel.ts'

/** A value at a place and its variance. */
export interface Kriged {
  readonly value: number
  readonly variance: number
}

/**
 * Ordinary kriging at a place from points, no two of one place: with C their covariances, c those with the place and 1 a
 * column of ones, value = cᵀC⁻¹z + (1 − 1ᵀC⁻¹c)·1ᵀC⁻¹z/1ᵀC⁻¹1 and variance = sill − cᵀC⁻¹c + (1 − 1ᵀC⁻¹c)²/1ᵀC⁻¹1
 * (Cressie 1993, Statistics for Spatial Data, 3.2). At a point its own value, with variance 0. Null where C is singular
 * to rounding, as a gaussian model without nugget may make it.
 */
export function krige(points: readonly ValuedPoint[], model: VariogramModel, x: number, y: number): Kriged | null {
  const n = points.length
  const sill = model.nugget + model.psill
  const c = new Float64Array(n * n)
  const there = new Float64Array(n)
  for (let i = 0; i < n; i += 1) {
    const a = points[i]!
    c[i * n + i] = sill
    for (let j = 0; j < i; j += 1) {
      const b = points[j]!
      c[i * n + j] = model.psill * alike(model.shape, Math.hypot(a.x - b.x, a.y - b.y) / model.rangeM)
    }
    const apart = Math.hypot(a.x - x, a.y - y)
    if (apart === 0) return { value: a.value, variance: 0 }
    there[i] = model.psill * alike(model.shape, apart / model.rangeM)
  }
  if (!cholesky(c, n)) return null
  const toPlace = solveLower(c, n, there)
  const ones = solveLower(c, n, new Float64Array(n).fill(1))
  const values = solveLower(
    c,
    n,
    Float64Array.from(points, ({ value }) => value),
  )
  const [oneOne, onePlace] = [dot(ones, ones), dot(ones, toPlace)]
  const value = dot(toPlace, values) + ((1 - onePlace) * dot(ones, values)) / oneOne
  const variance = sill - dot(toPlace, toPlace) + (1 - onePlace) ** 2 / oneOne
  return { value, variance: Math.max(0, variance) }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let k = 0; k < a.length; k += 1) sum += a[k]! * b[k]!
  return sum
}
