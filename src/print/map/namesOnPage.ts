import type { Feature, FeatureCollection, Geometry } from 'geojson'
import { mapPositions } from '../../../geo/plane/geometry.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import { type NamePlace, stripHead, upperEdge } from '../../map/nameEdge.ts'

/** Names that lie along their shape: from which source, and where. */
const NAMES: readonly (readonly [names: string, shapes: string, (geometry: Geometry) => NamePlace | null])[] = [
  ['field-names', 'fields', upperEdge],
  ['bed-names', 'beds', stripHead],
]

const rad = Math.PI / 180
/** Metres are told to the rules as millionths of a degree at the equator, where east and north are as long. */
const TINY = 1e-6

/**
 * The names of fields and beds put where they belong on a map that has another direction than north up: a field's upper
 * edge is then another one. As they were on a map with north up.
 */
export function namesOnPage(
  sources: Readonly<Record<string, FeatureCollection>>,
  plane: Plane,
  upDeg: number,
): Readonly<Record<string, FeatureCollection>> {
  if (upDeg === 0) return {}
  const [cos, sin] = [Math.cos(upDeg * rad), Math.sin(upDeg * rad)]
  const turned = (geometry: Geometry) =>
    mapPositions(geometry, (at) => {
      const [e, n] = plane.toMetres(at)
      return [(e * cos - n * sin) * TINY, (e * sin + n * cos) * TINY]
    })
  const nameOf = (feature: Feature, edge: (geometry: Geometry) => NamePlace | null): Feature[] => {
    const found = edge(turned(feature.geometry))
    if (!found) return []
    const [a, b] = [found.at[0]! / TINY, found.at[1]! / TINY]
    const at = plane.toLonLat([a * cos + b * sin, -a * sin + b * cos])
    return [
      {
        type: 'Feature',
        // On the page the name is turned back by as much as the map.
        properties: { ...feature.properties, turn: found.turnDeg + upDeg },
        geometry: { type: 'Point', coordinates: [...at] },
      },
    ]
  }
  return Object.fromEntries(
    NAMES.filter(([, shapes]) => sources[shapes]).map(([names, shapes, edge]) => [
      names,
      { type: 'FeatureCollection', features: sources[shapes]!.features.flatMap((f) => nameOf(f, edge)) },
    ]),
  )
}
