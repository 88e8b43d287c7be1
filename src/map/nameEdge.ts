import type { Geometry, Position } from 'geojson'

/** Where a name stands and how it is turned: degrees clockwise from reading due east, between -90 and 90. */
export interface NamePlace {
  readonly at: Position
  readonly turnDeg: number
}

const rad = Math.PI / 180

/** The outer ring that holds most corners; empty for what is no area. */
function outerRing(geometry: Geometry): Position[] {
  if (geometry.type === 'Polygon') return geometry.coordinates[0] ?? []
  if (geometry.type !== 'MultiPolygon') return []
  return geometry.coordinates.map((rings) => rings[0] ?? []).reduce((a, b) => (b.length > a.length ? b : a), [])
}

/** Edges as vectors in degrees of latitude, turned to read left to right (a due north one upward). */
function edgesOf(ring: Position[]): { from: Position; east: number; north: number }[] {
  const shrink = Math.cos((ring[0]?.[1] ?? 0) * rad)
  return ring.slice(1).map((to, i) => {
    const from = ring[i]!
    const east = (to[0]! - from[0]!) * shrink
    const north = to[1]! - from[1]!
    return east > 0 || (east === 0 && north > 0) ? { from, east, north } : { from: to, east: -east, north: -north }
  })
}

const turnOf = (east: number, north: number) => -Math.atan2(north, east) / rad

/** Along the upper edge that runs longest from west to east, at its western end; null for what is no area. */
export function upperEdge(geometry: Geometry): NamePlace | null {
  const ring = outerRing(geometry)
  const middle = ring.reduce((sum, p) => sum + p[1]!, 0) / ring.length
  let best: NamePlace | null = null
  let reach = -1
  for (const { from, east, north } of edgesOf(ring)) {
    if (from[1]! + north / 2 < middle || east <= reach) continue
    reach = east
    best = { at: from, turnDeg: turnOf(east, north) }
  }
  return best
}

/** At the western (or southern) end of a strip, on its middle, along its longest edge; null for what is no area. */
export function stripHead(geometry: Geometry): NamePlace | null {
  const ring = outerRing(geometry)
  const edges = edgesOf(ring)
  if (edges.length === 0) return null
  const { east, north } = edges.reduce((a, b) => (Math.hypot(b.east, b.north) > Math.hypot(a.east, a.north) ? b : a))
  const size = Math.hypot(east, north)
  if (size === 0) return null
  const [alongE, alongN] = [east / size, north / size]
  const [lon0, lat0] = [ring[0]![0]!, ring[0]![1]!]
  const shrink = Math.cos(lat0 * rad)
  const along: number[] = []
  const across: number[] = []
  for (const [lon, lat] of ring) {
    const e = (lon! - lon0) * shrink
    const n = lat! - lat0
    along.push(e * alongE + n * alongN)
    across.push(n * alongE - e * alongN)
  }
  const a = Math.min(...along)
  const c = (Math.min(...across) + Math.max(...across)) / 2
  return {
    at: [lon0 + (a * alongE - c * alongN) / shrink, lat0 + a * alongN + c * alongE],
    turnDeg: turnOf(east, north),
  }
}
