import type { Metres } from '../../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { PlaneFix } from '../../../../geo/track/fix.ts'
import type { Walk } from '../../../../geo/track/readWalk.ts'
import type { Proposed } from '../../../map/farmMap.ts'

/** What the map shows of a walk: the way, positions left out, corners, the shape, and where the device is. */
export function proposedWalk(
  walk: Walk,
  shape: { readonly corners: readonly Metres[]; readonly closed: boolean },
  here: boolean,
  plane: Plane,
): Proposed {
  const place = (at: Metres) => [...plane.toLonLat(at)]
  const point = (at: Metres, as: 'left out' | 'corner' | 'here') => ({
    type: 'Feature' as const,
    geometry: { type: 'Point' as const, coordinates: place(at) },
    properties: { as },
  })
  const way = walk.parts.flatMap((part) =>
    part.is === 'held'
      ? part.corner
        ? [part.corner.at]
        : []
      : part.fixes.flatMap(({ at }, n) => (part.out[n] ? [] : [at])),
  )
  const last = walk.parts.at(-1)?.fixes.at(-1) ?? null
  const { corners, closed } = shape
  return {
    type: 'FeatureCollection',
    features: [
      ...(here && last ? accuracyRing(last, place) : []),
      ...(corners.length > 2 && closed
        ? [
            {
              type: 'Feature' as const,
              geometry: { type: 'Polygon' as const, coordinates: [[...corners, corners[0]!].map(place)] },
              properties: { as: 'shape' as const },
            },
          ]
        : []),
      ...[way, closed ? [] : corners].flatMap((line, n) =>
        line.length > 1
          ? [
              {
                type: 'Feature' as const,
                geometry: { type: 'LineString' as const, coordinates: line.map(place) },
                properties: { as: n === 0 ? ('track' as const) : ('shape' as const) },
              },
            ]
          : [],
      ),
      ...walk.parts.flatMap((part) =>
        part.is === 'walked' ? part.fixes.flatMap(({ at }, n) => (part.out[n] ? [point(at, 'left out')] : [])) : [],
      ),
      ...corners.map((at) => point(at, 'corner')),
      ...(here && last ? [point(last.at, 'here')] : []),
    ],
  }
}

function accuracyRing({ at, accuracyM }: PlaneFix, place: (at: Metres) => number[]): Proposed['features'] {
  if (accuracyM === null) return []
  const ring = Array.from({ length: 49 }, (_, n): Metres => {
    const angle = ((n % 48) * Math.PI) / 24
    return [at[0] + accuracyM * Math.cos(angle), at[1] + accuracyM * Math.sin(angle)]
  })
  return [
    {
      type: 'Feature',
      geometry: { type: 'Polygon', coordinates: [ring.map(place)] },
      properties: { as: 'accuracy' },
    },
  ]
}
