import { union } from 'polyclip-ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import { type Corners, polygonsOf, type Shape } from '../shape.ts'
import { footOn } from '../snap.ts'

/** Neighbours drawn so near to each other are meant to touch: a centimetre. Further off they are apart. */
const TOUCH_M = 0.01

type Clip = Parameters<typeof union>[0]
export const toClip = (polygons: readonly (readonly Corners[])[]): Clip =>
  polygons.map((rings) => rings.map((ring) => [...ring, ring[0]!].map(([x, y]): [number, number] => [x, y])))
export const fromClip = (polygons: readonly (readonly (readonly Metres[])[])[]): readonly (readonly Corners[])[] =>
  polygons.map((rings) => rings.map((ring) => ring.slice(0, -1)))

/** Polygons as one shape: a Polygon where it is one, else a MultiPolygon. */
export function shapeOfPolygons(polygons: readonly (readonly Corners[])[]): Shape {
  const [only] = polygons
  return polygons.length === 1 && only
    ? { type: 'Polygon', parts: only }
    : { type: 'MultiPolygon', parts: polygons.flat(), rings: polygons.map((rings) => rings.length) }
}

/**
 * Areas joined into one. Corners of the later ones that come within a centimetre of a corner or side of an earlier one
 * are put there first, so that neighbours drawn to the same line leave no sliver. A MultiPolygon where they are apart.
 */
export function joinAreas(areas: readonly Shape[]): Shape {
  const standing: Corners[] = []
  const polygons = areas.map((area) => {
    const fitted = polygonsOf(area).map((rings) =>
      rings.map((ring) =>
        ring.map((at) => drawnTo(at, standing)).filter((at, i, all) => distanceM(at, all[(i + 1) % all.length]!) > 0),
      ),
    )
    standing.push(...fitted.flat())
    return fitted
  })
  const [first, ...others] = polygons.map(toClip)
  return shapeOfPolygons(first ? fromClip(union(first, ...others)) : [])
}

function drawnTo(at: Metres, rings: readonly Corners[]): Metres {
  let best: Metres = at
  let least = TOUCH_M
  for (const ring of rings)
    for (const corner of ring) if (distanceM(at, corner) <= least) [best, least] = [corner, distanceM(at, corner)]
  if (best !== at) return best
  for (const ring of rings)
    ring.forEach((a, i) => {
      const foot = footOn([a, ring[(i + 1) % ring.length]!], at)
      if (distanceM(at, foot) < least) [best, least] = [foot, distanceM(at, foot)]
    })
  return best
}
