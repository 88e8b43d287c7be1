import { type ControlPoint, type Guess, type Tape, whyNoFit } from './controlPoints.ts'
import type { Homography, Spot } from './homography.ts'
import { type PhotoFault, photoFault } from './placement.ts'

type Pair = readonly [number, number]

/** Metres to a pixel that make the sum of (length − scale · pixels)² least; null where no tape spans two spots. */
export const tapedPixelM = (tapes: readonly Tape[]): number | null => {
  let [lengths, pixels] = [0, 0]
  for (const { from, to, lengthM } of tapes) {
    const px = Math.hypot(to[0] - from[0], to[1] - from[1])
    lengths += lengthM * px
    pixels += px * px
  }
  return pixels > 0 && lengths > 0 ? lengths / pixels : null
}

const middleOf = (at: readonly Pair[]): Pair => [
  at.reduce((sum, p) => sum + p[0], 0) / at.length,
  at.reduce((sum, p) => sum + p[1], 0) / at.length,
]

/**
 * Turn, scale and shift by least squares, in closed form about the points' middles (the plane as complex numbers, rows
 * counted upward: ground = m · spot + shift, m = Σ s̄·g / Σ |s|²). With a scale given, m keeps only its direction, which
 * is the least-squares turn for any scale. One point alone is shifted, and turned by the guess.
 */
export const fitSimilarity = (
  points: readonly ControlPoint[],
  tapes: readonly Tape[],
  guess: Guess | null,
  middle: Spot,
): Homography | PhotoFault => {
  const taped = tapedPixelM(tapes)
  if (tapes.length > 0 && taped === null)
    return photoFault('points', 'A taped distance wants two spots that lie apart in the picture.')
  if (points.length >= 2) {
    const why = whyNoFit('similarity', points)
    return why === null ? byPoints(points, taped) : photoFault('points', why)
  }
  const pixelM = taped ?? guess?.pixelM ?? null
  if (pixelM === null || guess === null) return photoFault('points', whyNoFit('similarity', points)!)
  const turn = (-guess.headingDeg * Math.PI) / 180
  const slope: Pair = [pixelM * Math.cos(turn), pixelM * Math.sin(turn)]
  const [point] = points
  return shifted(slope, point?.spot ?? middle, point?.ground ?? guess.middle)
}

const byPoints = (points: readonly ControlPoint[], taped: number | null): Homography | PhotoFault => {
  const spot = middleOf(points.map((point) => point.spot))
  const ground = middleOf(points.map((point) => point.ground))
  let [along, across, size] = [0, 0, 0]
  for (const point of points) {
    const [u, v] = [point.spot[0] - spot[0], spot[1] - point.spot[1]]
    const [x, y] = [point.ground[0] - ground[0], point.ground[1] - ground[1]]
    along += u * x + v * y
    across += u * y - v * x
    size += u * u + v * v
  }
  const length = Math.hypot(along, across)
  if (!(length > 1e-12 * size))
    return photoFault('points', 'The points contradict one another so that no turn of the picture fits them.')
  const by = taped === null ? 1 / size : taped / length
  return shifted([along * by, across * by], spot, ground)
}

/** The similarity of a slope (as a complex number) that puts a spot on a place. */
const shifted = ([a, b]: Pair, [col, row]: Spot, [x, y]: Pair): Homography => [
  a,
  b,
  x - a * col - b * row,
  b,
  -a,
  y - b * col + a * row,
  0,
  0,
  1,
]
