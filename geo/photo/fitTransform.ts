import type { Metres } from '../plane/lonLat.ts'
import { type ControlPoint, type FitKind, type Guess, type Tape, whyNoFit } from './controlPoints.ts'
import { fitAffine, fitProjective } from './fitGeneral.ts'
import { fitSimilarity } from './fitSimilarity.ts'
import { depthAt, type Homography, type Spot, scaled, turnsAt } from './homography.ts'
import { type PhotoFault, photoFault } from './placement.ts'

/** What a picture is placed by. */
export interface Told {
  readonly kind: FitKind
  readonly widthPx: number
  readonly heightPx: number
  readonly points: readonly ControlPoint[]
  readonly tapes: readonly Tape[]
  readonly guess: Guess | null
}

/** A picture's far side may be so many times farther from the camera than its near side; beyond, the horizon is too near. */
const mostDepth = 50

/**
 * From the picture to the plane, by least squares on the ground: the sum of squared distances, in metres, between where
 * the points are put and where they were told to lie. A similarity's scale is set by the taped distances alone where
 * there are any (least squares of length − scale · pixels), and points then turn and shift the picture only; what
 * neither tells is taken from the guess. In the other fits tapes have no weight. A fault says in words why there is no fit.
 */
export const fitTransform = (told: Told): Homography | PhotoFault => {
  const { kind, points, tapes, guess } = told
  const middle: Spot = [told.widthPx / 2, told.heightPx / 2]
  if (kind === 'similarity') return fitSimilarity(points, tapes, guess, middle)
  const why = whyNoFit(kind, points)
  if (why !== null) return photoFault('points', why)
  const found = kind === 'affine' ? fitAffine(points) : fitProjective(points)
  if (found === null)
    return photoFault(
      'points',
      'No such fit comes near these points. Look for one that is wrong, or choose a simpler fit.',
    )
  const fit = depthAt(found, points[0]!.spot) < 0 ? scaled(found, -1) : found
  const fault = crossesHorizon(fit, told) ?? mirrored(fit, points)
  return fault ?? scaled(fit, fit[8])
}

const crossesHorizon = (fit: Homography, { widthPx, heightPx, points }: Told): PhotoFault | null => {
  const corners: readonly Spot[] = [
    [0, 0],
    [widthPx, 0],
    [widthPx, heightPx],
    [0, heightPx],
  ]
  const depths = corners.map((corner) => depthAt(fit, corner))
  const atPoints = points.map(({ spot }) => depthAt(fit, spot))
  const least = Math.min(...depths, ...atPoints)
  if (least > Math.max(...depths) / mostDepth) return null
  return photoFault(
    'points',
    'With these points the horizon would run through the picture. Look for a point that is wrong; spread the points over the whole picture; or cut the sky off.',
  )
}

const mirrored = (fit: Homography, points: readonly ControlPoint[]): PhotoFault | null =>
  turnsAt(fit, points[0]!.spot) < 0
    ? null
    : photoFault(
        'points',
        'The points would turn the picture over like a mirror. Two of them have probably been mixed up.',
      )

/** True for a fit, false for its fault. */
export const isFit = (fit: Homography | PhotoFault): fit is Homography => Array.isArray(fit)

/** How far apart two places are, in metres. */
export const apartM = (a: Metres, b: Metres): number => Math.hypot(a[0] - b[0], a[1] - b[1])
