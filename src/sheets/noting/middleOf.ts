import type { Geometry, Position } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** The centre of an outline's area (shoelace formula, about its first corner); null for what has no outline. */
export function middleOf(geometry: Geometry | undefined): LonLat | null {
  if (geometry?.type !== 'Polygon') return null
  const ring = geometry.coordinates[0]!
  const [x0, y0] = ring[0] as [number, number]
  let [area, x, y] = [0, 0, 0]
  ring.forEach((at: Position, i) => {
    const next = ring[(i + 1) % ring.length]!
    const [ax, ay, bx, by] = [at[0]! - x0, at[1]! - y0, next[0]! - x0, next[1]! - y0]
    const cross = ax * by - bx * ay
    area += cross
    x += (ax + bx) * cross
    y += (ay + by) * cross
  })
  return area === 0 ? [x0, y0] : [x0 + x / (3 * area), y0 + y / (3 * area)]
}
