import type { MultiPolygon, Polygon, Position } from 'geojson'
import type { LonLat } from '../plane/lonLat.ts'
import type { Ring } from './ring.ts'
import { ringAreaM2 } from './ring.ts'

/** Nine decimals of a degree are a tenth of a millimetre. */
const DECIMALS = 1e9

/** Rings in the plane as a GeoJSON polygon in lon/lat, each hole given to the outer ring it lies in. */
export function groundPolygon(
  rings: readonly Ring[],
  toLonLat: (x: number, y: number) => LonLat,
): Polygon | MultiPolygon {
  const outers = rings.filter((ring) => ringAreaM2(ring) > 0)
  const parts = outers.map((outer) => [outer])
  for (const hole of rings) {
    if (ringAreaM2(hole) > 0) continue
    const owner = outers.length === 1 ? 0 : outers.findIndex((outer) => covers(outer, hole[0]!, hole[1]!))
    parts[owner]?.push(hole)
  }
  const polygons = parts.map((part) => part.map((ring) => closedLonLat(ring, toLonLat)))
  return polygons.length === 1
    ? { type: 'Polygon', coordinates: polygons[0]! }
    : { type: 'MultiPolygon', coordinates: polygons }
}

function closedLonLat(ring: Ring, toLonLat: (x: number, y: number) => LonLat): Position[] {
  const positions: Position[] = []
  for (let k = 0; k < ring.length; k += 2) {
    const [lon, lat] = toLonLat(ring[k]!, ring[k + 1]!)
    positions.push([Math.round(lon * DECIMALS) / DECIMALS, Math.round(lat * DECIMALS) / DECIMALS])
  }
  positions.push([...positions[0]!])
  return positions
}

/** Whether a ring goes around a place (even–odd rule). */
function covers(ring: Ring, x: number, y: number): boolean {
  let inside = false
  let ax = ring[ring.length - 2]!
  let ay = ring[ring.length - 1]!
  for (let k = 0; k < ring.length; k += 2) {
    const bx = ring[k]!
    const by = ring[k + 1]!
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside
    ax = bx
    ay = by
  }
  return inside
}
