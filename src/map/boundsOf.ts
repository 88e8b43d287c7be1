import type { Geometry } from 'geojson'
import { positionsOf } from '../../geo/plane/geometry.ts'
import type { Bounds } from './farmMap.ts'

/** The least box about all the geometries, or null about none. */
export function boundsOf(geometries: Iterable<Geometry>): Bounds | null {
  let west = Number.POSITIVE_INFINITY
  let south = Number.POSITIVE_INFINITY
  let east = Number.NEGATIVE_INFINITY
  let north = Number.NEGATIVE_INFINITY
  for (const geometry of geometries)
    for (const [lon, lat] of positionsOf(geometry)) {
      west = Math.min(west, lon!)
      east = Math.max(east, lon!)
      south = Math.min(south, lat!)
      north = Math.max(north, lat!)
    }
  return west > east ? null : { southWest: [west, south], northEast: [east, north] }
}
