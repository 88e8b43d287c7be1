import type { Metres } from '../plane/lonLat.ts'
import type { Spot } from './homography.ts'

/** How freely a picture may be laid on the ground: turned and scaled; sheared as well; or seen at a slant. */
export type FitKind = 'similarity' | 'affine' | 'projective'

/** A spot in the picture and where it lies on the ground, in metres of a plane. */
export interface ControlPoint {
  readonly spot: Spot
  readonly ground: Metres
}

/** A distance measured on the ground between two spots of the picture. */
export interface Tape {
  readonly from: Spot
  readonly to: Spot
  readonly lengthM: number
}

/** What is thought of a picture's place before anything is measured; used only as far as points and tapes leave it open. */
export interface Guess {
  /** Where the picture's middle lies. */
  readonly middle: Metres
  /** Compass direction that the picture's top looks to, degrees clockwise from north. */
  readonly headingDeg: number
  /** Side of a pixel on the ground; null where nothing tells. */
  readonly pixelM: number | null
}

/** How many control points a fit wants at least. */
export const fewestPoints: Readonly<Record<FitKind, number>> = { similarity: 2, affine: 3, projective: 4 }

/** Spots of a picture nearer than this (pixels) count as one, and places on the ground (metres). */
const sameSpotPx = 0.5
const samePlaceM = 0.01
/** Points whose spread across is less than this share of their spread along count as lying on one line. */
const flat = 0.01

type Pair = readonly [number, number]

/** The first two that are nearer than `apart` to one another, by index; null where all are distinct. */
const twins = (at: readonly Pair[], apart: number): Pair | null => {
  for (let j = 1; j < at.length; j += 1)
    for (let i = 0; i < j; i += 1) if (Math.hypot(at[i]![0] - at[j]![0], at[i]![1] - at[j]![1]) < apart) return [i, j]
  return null
}

const distinct = (at: readonly Pair[], apart: number): number =>
  at.filter((p, j) => !at.slice(0, j).some((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < apart)).length

/** True where places lie on one line, or nearly: by the ratio of their principal spreads. */
const onOneLine = (at: readonly Pair[]): boolean => {
  const mean = (k: 0 | 1) => at.reduce((sum, p) => sum + p[k], 0) / at.length
  const [mx, my] = [mean(0), mean(1)]
  let [xx, xy, yy] = [0, 0, 0]
  for (const [x, y] of at) {
    xx += (x - mx) ** 2
    xy += (x - mx) * (y - my)
    yy += (y - my) ** 2
  }
  const half = (xx + yy) / 2
  const root = Math.hypot((xx - yy) / 2, xy)
  return !(half - root > flat * flat * (half + root))
}

/** True where some line holds all of the places but one at most, so that no four of them span a perspective. */
const allButOneOnALine = (at: readonly Pair[]): boolean =>
  onOneLine(at) || at.some((_, left) => onOneLine(at.filter((_, i) => i !== left)))

const wants: Readonly<Record<FitKind, string>> = {
  similarity: 'Turning and scaling the picture wants 2 points or a taped distance',
  affine: 'An affine fit wants 3 points',
  projective: 'A perspective fit wants 4 points',
}

/** Why points cannot carry a fit, in words with their numbers from 1; null where they can. */
export const whyNoFit = (kind: FitKind, points: readonly ControlPoint[]): string | null => {
  const fewest = fewestPoints[kind]
  if (points.length < fewest)
    return `${wants[kind]}; there ${points.length === 1 ? 'is' : 'are'} ${points.length || 'none'}.`
  const spots = points.map(({ spot }) => spot)
  const grounds = points.map(({ ground }) => ground)
  for (const [at, apart, where] of [
    [spots, sameSpotPx, 'spot in the picture'],
    [grounds, samePlaceM, 'place on the ground'],
  ] as const)
    if (distinct(at, apart) < fewest) {
      const [i, j] = twins(at, apart)!
      return `Points ${i + 1} and ${j + 1} have the same ${where}. ${wants[kind]} that lie apart.`
    }
  if (kind === 'similarity') return null
  const fails = kind === 'affine' ? onOneLine : allButOneOnALine
  for (const [at, where] of [
    [spots, 'in the picture'],
    [grounds, 'on the ground'],
  ] as const)
    if (fails(at))
      return kind === 'affine'
        ? `The points lie on one line ${where}, or nearly. Put one well off that line.`
        : `All points but one lie on one line ${where}, or nearly. Put two well off that line.`
  return null
}
