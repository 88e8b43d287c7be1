import { noPause, type Pace } from '../../store/pace.ts'
import { inverseDistance } from './inverseDistance.ts'
import { krige } from './kriging.ts'
import { nearestPoints, type PointBuckets, pointBuckets } from './nearestPoints.ts'
import { type ValuedPoint, withoutTwins } from './valuedPoint.ts'
import { variogram } from './variogram.ts'
import { bestVariogram, type FittedVariogram } from './variogramModel.ts'

export type PointMethod = 'kriging' | 'inverse distance'

/** Values at places from points about them. */
export interface PointSurface {
  readonly method: PointMethod
  readonly points: number
  /** One for each place. */
  readonly values: Float64Array
  /** Standard error at each place; null for inverse distance, which has none. */
  readonly errors: Float64Array | null
  readonly model: FittedVariogram | null
  /** Root mean square by which points are missed when each is told from the others. */
  readonly missedBy: number
}

/** A place is told from so many points nearest to it. */
const NEAREST = 40
/** Fewer points than this tell no semivariogram: common practice asks for 30 to 50. */
export const FEWEST_POINTS = 30
/** So many places are told between two calls of the pace. */
const AT_A_TIME = 64

/**
 * A surface through points by ordinary kriging, on the best of three models fitted to their semivariogram, or by inverse
 * distance (power 2); each place from the 40 points nearest to it. Null where there are too few points or no model. A large
 * ground takes seconds, so `pace` is called as it goes; what that throws is thrown.
 */
export async function pointSurface(
  told: readonly ValuedPoint[],
  places: readonly { readonly x: number; readonly y: number }[],
  method: PointMethod,
  pace: Pace = noPause,
): Promise<PointSurface | null> {
  const points = withoutTwins(told)
  if (points.length < FEWEST_POINTS) return null
  const buckets = pointBuckets(points)
  const fitted = method === 'kriging' ? bestVariogram(variogram(points)) : null
  if (method === 'kriging' && fitted === null) return null
  // A little nugget keeps the matrix sound where the fit has none.
  const model = fitted && { ...fitted, nugget: Math.max(fitted.nugget, 1e-6 * fitted.psill) }
  const valueAt = (own: readonly ValuedPoint[], x: number, y: number): { value: number; variance: number } =>
    model === null
      ? { value: inverseDistance(own, x, y), variance: 0 }
      : (krige(own, model, x, y) ?? { value: inverseDistance(own, x, y), variance: model.nugget + model.psill })
  const values = new Float64Array(places.length)
  const errors = model === null ? null : new Float64Array(places.length)
  const all = places.length + points.length
  for (const [k, { x, y }] of places.entries()) {
    if (k % AT_A_TIME === 0) await pace(k, all)
    const { value, variance } = valueAt(near(buckets, x, y, NEAREST), x, y)
    values[k] = value
    if (errors) errors[k] = Math.sqrt(variance)
  }
  let missed = 0
  for (const [k, point] of points.entries()) {
    if (k % AT_A_TIME === 0) await pace(places.length + k, all)
    const others = near(buckets, point.x, point.y, NEAREST + 1).filter((other) => other !== point)
    missed += (valueAt(others, point.x, point.y).value - point.value) ** 2
  }
  return { method, points: points.length, values, errors, model: fitted, missedBy: Math.sqrt(missed / points.length) }
}

function near(buckets: PointBuckets, x: number, y: number, most: number): ValuedPoint[] {
  return nearestPoints(buckets, x, y, most).map((k) => buckets.points[k]!)
}
