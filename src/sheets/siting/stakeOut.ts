import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import { compassOf } from '../ground/acts/thingWords.ts'

/** A point that stays where it is: a trunk, a pole, a corner of a field. */
export interface FixedPoint {
  readonly name: string
  readonly at: LonLat
}

/** An end of a run by the compass, with its taped distances, in metres on the plane, from both fixed points. */
export interface Stake {
  readonly run: string
  /** Where this end lies as seen from the other. */
  readonly end: string
  readonly fromA: number
  readonly fromB: number
  /** On which side of the line from A to B: two tapes meet on either. */
  readonly side: 'left' | 'right'
}

/** Two tapes that meet at less than this angle place a point badly: common practice of taping. */
const LEAST_ANGLE_DEG = 30

/**
 * The two fixed points from which the ends can be taped best: of the pairs, the one whose tapes meet at 30° to 150° at
 * most ends, and the shortest longest tape of such. Null where there are fewer than two.
 */
export function bestPair(
  points: readonly FixedPoint[],
  ends: readonly LonLat[],
  plane: Plane,
): readonly [FixedPoint, FixedPoint] | null {
  const places = points.map(({ at }) => plane.toMetres(at))
  const stakes = ends.map((at) => plane.toMetres(at))
  let best: { pair: readonly [FixedPoint, FixedPoint]; bad: number; longest: number } | null = null
  for (let i = 0; i < places.length; i++)
    for (let j = i + 1; j < places.length; j++) {
      const [a, b] = [places[i]!, places[j]!]
      let [bad, longest] = [0, 0]
      for (const [x, y] of stakes) {
        const [da, db] = [Math.hypot(x - a[0], y - a[1]), Math.hypot(x - b[0], y - b[1])]
        const cos = ((a[0] - x) * (b[0] - x) + (a[1] - y) * (b[1] - y)) / (da * db || 1)
        if (Math.abs(cos) > Math.cos((LEAST_ANGLE_DEG * Math.PI) / 180)) bad++
        longest = Math.max(longest, da, db)
      }
      if (!best || bad < best.bad || (bad === best.bad && longest < best.longest))
        best = { pair: [points[i]!, points[j]!], bad, longest }
    }
  return best?.pair ?? null
}

/** Where both ends of each run lie from two fixed points. */
export function stakesOf(
  runs: readonly { readonly name: string; readonly line: readonly [LonLat, LonLat] }[],
  [a, b]: readonly [FixedPoint, FixedPoint],
  plane: Plane,
): Stake[] {
  const [[ax, ay], [bx, by]] = [plane.toMetres(a.at), plane.toMetres(b.at)]
  return runs.flatMap(({ name, line }) => {
    const ends = line.map((at) => plane.toMetres(at))
    return ends.map(([x, y], n): Stake => {
      const [u, v] = ends[1 - n]!
      return {
        run: name,
        end: compassOf([x - u, y - v]),
        fromA: Math.hypot(x - ax, y - ay),
        fromB: Math.hypot(x - bx, y - by),
        side: (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0 ? 'left' : 'right',
      }
    })
  })
}
