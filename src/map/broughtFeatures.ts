import type { Feature, Geometry } from 'geojson'
import type { BroughtShapes } from '../desk/door.ts'

/** Shapes of a file as the map draws them; `as` says what would become of each. */
export function broughtFeatures({ kept, leftOut, notTaken }: BroughtShapes): Feature[] {
  const drawn = (shapes: readonly Geometry[], as: keyof BroughtShapes) =>
    shapes.map((geometry) => ({ type: 'Feature' as const, geometry, properties: { as } }))
  return [
    ...drawn(notTaken.map(outlined), 'notTaken'),
    ...drawn(kept, 'kept'),
    ...drawn(leftOut.map(outlined), 'leftOut'),
  ]
}

/** Areas as their outlines: the map's tiles leave an area out whose loops cancel each other, as those of a crossed outline do. */
function outlined(geometry: Geometry): Geometry {
  switch (geometry.type) {
    case 'Polygon':
      return { type: 'MultiLineString', coordinates: geometry.coordinates }
    case 'MultiPolygon':
      return { type: 'MultiLineString', coordinates: geometry.coordinates.flat() }
    case 'GeometryCollection':
      return { type: 'GeometryCollection', geometries: geometry.geometries.map(outlined) }
    default:
      return geometry
  }
}
