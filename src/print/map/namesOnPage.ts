import type { Feature, FeatureCollection, Geometry, Position } from 'geojson'
import { mapPositions } from '../../../geo/plane/geometry.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import { type NamePlace, stripHead, upperEdge } from '../../map/nameEdge.ts'
import { type Frame, toPlane } from '../frame.ts'
import type { At, Box } from '../marks.ts'
import { clipRing } from './clipRing.ts'
import { placer } from './placer.ts'

/** Names that lie along their shape: from which source, and where. */
const NAMES: readonly (readonly [names: string, shapes: string, (geometry: Geometry) => NamePlace | null])[] = [
  ['field-names', 'fields', upperEdge],
  ['bed-names', 'beds', stripHead],
]

const rad = Math.PI / 180
/** Metres are told to the rules as millionths of a degree at the equator, where east and north are as long. */
const TINY = 1e-6

/**
 * The names of fields and beds put where they belong on a page: along another edge where the map is turned, and in the
 * middle of what shows of a shape whose usual place lies on another page.
 */
export function namesOnPage(
  sources: Readonly<Record<string, FeatureCollection>>,
  plane: Plane,
  frame: Frame,
): Readonly<Record<string, FeatureCollection>> {
  const { upDeg, box } = frame
  const [cos, sin] = [Math.cos(upDeg * rad), Math.sin(upDeg * rad)]
  const place = placer(plane, frame)
  const turned = (geometry: Geometry) =>
    mapPositions(geometry, (at) => {
      const [e, n] = plane.toMetres(at)
      return [(e * cos - n * sin) * TINY, (e * sin + n * cos) * TINY]
    })
  const usual = ({ geometry }: Feature, edge: (geometry: Geometry) => NamePlace | null): NamePlace | null => {
    if (upDeg === 0) return edge(geometry)
    const found = edge(turned(geometry))
    if (!found) return null
    const [a, b] = [found.at[0]! / TINY, found.at[1]! / TINY]
    // On the page the name is turned back by as much as the map.
    return { at: [...plane.toLonLat([a * cos + b * sin, -a * sin + b * cos])], turnDeg: found.turnDeg + upDeg }
  }
  const nameOf = (feature: Feature, edge: (geometry: Geometry) => NamePlace | null): Feature[] => {
    const first = usual(feature, edge)
    if (!first) return []
    const shown = within(place(first.at), box) ? first : middleOfShown(feature.geometry, place, frame, plane)
    if (!shown) return []
    return [
      {
        type: 'Feature',
        properties: { ...feature.properties, turn: shown.turnDeg },
        geometry: { type: 'Point', coordinates: shown.at },
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

const within = ([x, y]: At, { xMm, yMm, wideMm, highMm }: Box) =>
  x >= xMm && y >= yMm && x <= xMm + wideMm && y <= yMm + highMm

/** The middle of the part of an area that shows, for a level name; null where none does. */
function middleOfShown(geometry: Geometry, place: (at: Position) => At, frame: Frame, plane: Plane): NamePlace | null {
  const ring =
    geometry.type === 'Polygon'
      ? geometry.coordinates[0]
      : geometry.type === 'MultiPolygon'
        ? geometry.coordinates[0]?.[0]
        : null
  const shown = clipRing((ring ?? []).map(place), frame.box)
  if (shown.length === 0) return null
  const [xs, ys] = [shown.map(([x]) => x), shown.map(([, y]) => y)]
  const middle: At = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2]
  return { at: [...plane.toLonLat(toPlane(frame)(middle))], turnDeg: frame.upDeg }
}
