import type { Area, Segment } from '../../../geo/layout/area.ts'
import type { BedPlan } from '../../../geo/layout/layBeds.ts'
import type { Obstacle } from '../../../geo/layout/openSpans.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

/** A made field with what stands in it and how it is to be laid out; the same for the same seed. */
export interface MadeCase {
  readonly field: Area
  readonly obstacles: readonly Obstacle[]
  readonly trees: readonly { readonly at: Metres; readonly clearM: number }[]
  readonly plan: BedPlan
}

/** A star about the middle: concave as a rule, sound always, since its corners go round once. */
function star(next: () => number, corners: number, low: number, high: number): Metres[] {
  return Array.from({ length: corners }, (_, n): Metres => {
    const angle = ((n + 0.8 * (next() - 0.5)) / corners) * 2 * Math.PI
    const radius = low + (high - low) * next()
    return [radius * Math.cos(angle), radius * Math.sin(angle)]
  })
}

export function madeCase(seed: number): MadeCase {
  const next = seededRandom(seed)
  const sizeM = 25 + 60 * next()
  const [long, turn] = [1 + 2 * next(), 2 * Math.PI * next()]
  const [east, north] = [(next() - 0.5) * 2000, (next() - 0.5) * 2000]
  const place = ([x, y]: Metres): Metres => {
    const [u, v] = [x * sizeM * long, y * sizeM]
    return [east + u * Math.cos(turn) - v * Math.sin(turn), north + u * Math.sin(turn) + v * Math.cos(turn)]
  }
  const outer = star(next, 8 + Math.floor(6 * next()), 0.5, 1).map(place)
  const hole = star(next, 5, 0.08, 0.22).map(place)
  const trees = Array.from({ length: Math.floor(4 * next()) }, () => ({
    at: place([(next() - 0.5) * 1.2, (next() - 0.5) * 1.2]),
    clearM: 0.5 + 4 * next(),
  }))
  const shed: Area = [star(next, 4, 0.04, 0.08).map(([x, y]): Metres => place([x + 0.35, y - 0.1]))]
  const byCount = next() < 0.3
  return {
    field: next() < 0.6 ? [outer, hole] : [outer],
    trees,
    obstacles: [
      ...trees.map(({ at, clearM }): Obstacle => ({ area: [], edges: [[at, at] satisfies Segment], clearM })),
      { area: shed, edges: [], clearM: 1 },
    ],
    plan: {
      bearingDeg: 180 * next(),
      by: byCount ? { count: 3 + Math.floor(10 * next()) } : { widthM: 0.7 + 2 * next() },
      pathM: next() < 0.2 ? 0 : 0.3 + next(),
      headlandM: next() < 0.2 ? 0 : 4 * next(),
      headland: next() < 0.5 ? 'all round' : 'ends',
      begin: (['left', 'right', 'most'] as const)[Math.floor(3 * next())]!,
      pieces: next() < 0.5 ? 'every' : 'longest',
      leastLengthM: 3 + 3 * next(),
      lengthM: next() < 0.25 ? 10 : null,
    },
  }
}
