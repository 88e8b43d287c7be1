import type { Geometry } from 'geojson'
import type { Kind } from '../../model/kind.ts'

/** What sort of shape a thing is, whatever the number of its parts. */
export type ShapeClass = 'areas' | 'lines' | 'points' | 'mixtures' | 'no shapes'

export function shapeClass(geometry: Geometry | null): ShapeClass {
  switch (geometry?.type) {
    case 'Polygon':
    case 'MultiPolygon':
      return 'areas'
    case 'LineString':
    case 'MultiLineString':
      return 'lines'
    case 'Point':
    case 'MultiPoint':
      return 'points'
    case 'GeometryCollection':
      return 'mixtures'
    default:
      return 'no shapes'
  }
}

/** True where things of that sort can be records of a kind. A line may be the outline of an area, once it is closed. */
export function mayBe(kind: Kind, shape: ShapeClass): boolean {
  const shapes = kind.shapes ?? []
  if (shapes.includes('any') || shape === 'mixtures' || shape === 'no shapes') return true
  if (shape === 'areas') return shapes.includes('Polygon')
  if (shape === 'lines') return shapes.includes('LineString') || shapes.includes('Polygon')
  return shapes.includes('Point')
}
