import type { Geometry, Position } from 'geojson'
import { turned } from './rings.ts'

/** The geometry with outer rings counter-clockwise and holes clockwise (RFC 7946 §3.1.6). */
export function rightHanded(geometry: Geometry): Geometry {
  if (geometry.type === 'Polygon') return { ...geometry, coordinates: byHand(geometry.coordinates) }
  if (geometry.type === 'MultiPolygon') return { ...geometry, coordinates: geometry.coordinates.map(byHand) }
  if (geometry.type === 'GeometryCollection') return { ...geometry, geometries: geometry.geometries.map(rightHanded) }
  return geometry
}

function byHand(rings: Position[][]): Position[][] {
  return rings.map((ring, i) => turned(ring, i === 0))
}
