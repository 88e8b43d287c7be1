import { type ControlPoint, type FitKind, fewestPoints } from './controlPoints.ts'
import { apartM, fitTransform, isFit, type Told } from './fitTransform.ts'
import { type Homography, mapped } from './homography.ts'
import type { PhotoFault } from './placement.ts'

/** How far one control point is from where the fit puts it. */
export interface PointError {
  /** From where it was told to lie to where the fit puts it. */
  readonly eastM: number
  readonly northM: number
  readonly offM: number
  /** How far off the fit of all other points would put it; null where they carry no fit of this kind. */
  readonly leftOutM: number | null
}

/** A picture's fit with its errors. */
export interface PhotoFit {
  readonly kind: FitKind
  /** From the picture to metres of the plane. */
  readonly transform: Homography
  readonly points: readonly PointError[]
  /** Of each tape: the distance in the placed picture less the distance taped, in metres. */
  readonly tapesOffM: readonly number[]
  /** √(Σ(dx² + dy²) / n) over the points; null without points. */
  readonly rmseM: number | null
  /** More was told than the fit needs, so that the errors say how good it is; else they are zero whatever was told. */
  readonly isChecked: boolean
  /** The point that fits worst (index): that without which the others agree best, or, where too few would be left to tell, the one farthest off. Null where nothing can tell. */
  readonly worst: number | null
  /** How well the others agree without the worst: the RMSE of their own fit; null where too few would be left to tell. */
  readonly withoutWorstM: number | null
}

/** A picture placed by what was told of it, or why it cannot be. */
export const fitPhoto = (told: Told): PhotoFit | PhotoFault => {
  const transform = fitTransform(told)
  if (!isFit(transform)) return transform
  const { kind, points, tapes } = told
  const without = points.map((_, i) => leaveOut(told, i))
  const isChecked = points.length > fewestPoints[kind] || (tapes.length > 0 && points.length >= 2)
  return {
    kind,
    transform,
    points: points.map((point, i) => {
      const [x, y] = mapped(transform, point.spot)
      const left = without[i]!
      return {
        eastM: x - point.ground[0],
        northM: y - point.ground[1],
        offM: apartM([x, y], point.ground),
        leftOutM: left && apartM(mapped(left, point.spot), point.ground),
      }
    }),
    tapesOffM: tapes.map(({ from, to, lengthM }) => apartM(mapped(transform, from), mapped(transform, to)) - lengthM),
    rmseM: points.length === 0 ? null : rmse(transform, points),
    isChecked,
    ...(isChecked ? worstOf(transform, points, without, kind) : { worst: null, withoutWorstM: null }),
  }
}

/** The fit of all points but one. Only measured things count here: what the guess alone would give is no check. */
const leaveOut = (told: Told, left: number): Homography | null => {
  const points = told.points.filter((_, i) => i !== left)
  if (points.length < fewestPoints[told.kind]) return null
  const fit = fitTransform({ ...told, points })
  return isFit(fit) ? fit : null
}

const rmse = (transform: Homography, points: readonly ControlPoint[]): number =>
  Math.sqrt(
    points.reduce((sum, { spot, ground }) => sum + apartM(mapped(transform, spot), ground) ** 2, 0) / points.length,
  )

const worstOf = (
  transform: Homography,
  points: readonly ControlPoint[],
  without: readonly (Homography | null)[],
  kind: FitKind,
): Pick<PhotoFit, 'worst' | 'withoutWorstM'> => {
  if (points.length <= fewestPoints[kind] + 1) {
    const off = points.map(({ spot, ground }) => apartM(mapped(transform, spot), ground))
    return { worst: off.indexOf(Math.max(...off)), withoutWorstM: null }
  }
  const others = without.map((left, i) => {
    const rest = points.filter((_, j) => j !== i)
    return left ? rmse(left, rest) : Number.POSITIVE_INFINITY
  })
  const least = Math.min(...others)
  return Number.isFinite(least)
    ? { worst: others.indexOf(least), withoutWorstM: least }
    : { worst: null, withoutWorstM: null }
}
