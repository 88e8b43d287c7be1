import type { Geometry, Polygon } from 'geojson'
import { holds } from './lies.ts'

/** An area with a hole taken out of the polygon that holds it; every other corner is as it was. Holes run clockwise (RFC 7946). */
export function withHole(geometry: Geometry, hole: Polygon): Geometry {
  const ring = [...hole.coordinates[0]!].reverse()
  if (geometry.type === 'Polygon') return { ...geometry, coordinates: [...geometry.coordinates, ring] }
  if (geometry.type !== 'MultiPolygon') throw new Error(`a ${geometry.type} can have no hole`)
  const [lon, lat] = ring[0]!
  let done = false
  return {
    ...geometry,
    coordinates: geometry.coordinates.map((rings) => {
      if (done || !holds({ type: 'Polygon', coordinates: rings }, [lon!, lat!])) return rings
      done = true
      return [...rings, ring]
    }),
  }
}
