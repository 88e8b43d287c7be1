import type { Geometry, Position } from 'geojson'
import type { LonLat } from './lonLat.ts'

/** The same geometry with every position put through `change`; heights and further numbers stay with their position. */
export function mapPositions(geometry: Geometry, change: (at: LonLat) => LonLat): Geometry {
  const one = (p: Position): Position => [...change([p[0]!, p[1]!]), ...p.slice(2)]
  switch (geometry.type) {
    case 'Point':
      return { type: 'Point', coordinates: one(geometry.coordinates) }
    case 'MultiPoint':
      return { type: 'MultiPoint', coordinates: geometry.coordinates.map(one) }
    case 'LineString':
      return { type: 'LineString', coordinates: geometry.coordinates.map(one) }
    case 'MultiLineString':
      return { type: 'MultiLineString', coordinates: geometry.coordinates.map((l) => l.map(one)) }
    case 'Polygon':
      return { type: 'Polygon', coordinates: geometry.coordinates.map((r) => r.map(one)) }
    case 'MultiPolygon':
      return { type: 'MultiPolygon', coordinates: geometry.coordinates.map((p) => p.map((r) => r.map(one))) }
    case 'GeometryCollection':
      return { type: 'GeometryCollection', geometries: geometry.geometries.map((g) => mapPositions(g, change)) }
  }
}

/** Every position of a geometry, in order. */
export function* positionsOf(geometry: Geometry): Generator<Position> {
  switch (geometry.type) {
    case 'Point':
      yield geometry.coordinates
      return
    case 'MultiPoint':
    case 'LineString':
      yield* geometry.coordinates
      return
    case 'MultiLineString':
    case 'Polygon':
      for (const line of geometry.coordinates) yield* line
      return
    case 'MultiPolygon':
      for (const polygon of geometry.coordinates) for (const ring of polygon) yield* ring
      return
    case 'GeometryCollection':
      for (const part of geometry.geometries) yield* positionsOf(part)
  }
}
