import type { Geometry, Position } from 'geojson'
import { mapPositions } from '../../geo/plane/geometry.ts'
import { lonWithin180, type Metres } from '../../geo/plane/lonLat.ts'
import type { Plane } from '../../geo/plane/plane.ts'
import type { Place } from './ops/moved.ts'

/** A geometry of any type with its places put elsewhere in the plane; longitudes within ±180. */
export function placeGeometry(geometry: Geometry, plane: Plane, to: Place): Geometry {
  return mapPositions(geometry, (at) => {
    const [lon, lat] = plane.toLonLat(to(plane.toMetres(at)))
    return [lonWithin180(lon), lat]
  })
}

/** The lines that a geometry is drawn by, in the plane: those of areas come back to their first corner. */
export function linesOf(geometry: Geometry, plane: Plane): readonly (readonly Metres[])[] {
  const line = (positions: readonly Position[]) => positions.map((p) => plane.toMetres([p[0]!, p[1]!]))
  switch (geometry.type) {
    case 'Point':
      return [line([geometry.coordinates])]
    case 'MultiPoint':
      return geometry.coordinates.map((p) => line([p]))
    case 'LineString':
      return [line(geometry.coordinates)]
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates.map(line)
    case 'MultiPolygon':
      return geometry.coordinates.flatMap((rings) => rings.map(line))
    case 'GeometryCollection':
      return geometry.geometries.flatMap((part) => linesOf(part, plane))
  }
}
