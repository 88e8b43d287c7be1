import type { Geometry, LineString, MultiLineString, MultiPolygon, Polygon, Position } from 'geojson'
import { dropCutPositions } from './dropCutPositions.ts'

/**
 * Undoes the cut of RFC 7946 §3.1.9: parts of a MultiPolygon or MultiLineString that meet along the meridian `lon` (±180,
 * as it is written after unwrapping) become one. What is not cut there comes back as it is, the same object. Topology
 * only: no position is reckoned anew, and those that the cut put in are taken out where they lie on a straight line.
 */
export function joinAtMeridian(geometry: Geometry, lon: number): Geometry {
  if (geometry.type === 'MultiLineString') return joinLines(geometry, lon)
  if (geometry.type === 'MultiPolygon') return joinPolygons(geometry, lon)
  if (geometry.type !== 'GeometryCollection') return geometry
  const parts = geometry.geometries.map((part) => joinAtMeridian(part, lon))
  return parts.some((part, i) => part !== geometry.geometries[i]) ? { ...geometry, geometries: parts } : geometry
}

function joinLines(geometry: MultiLineString, lon: number): MultiLineString | LineString {
  const lines = [...geometry.coordinates]
  for (let i = 0; i < lines.length; i++) {
    const end = lines[i]!.at(-1)!
    if (end[0] !== lon) continue
    const next = lines.findIndex((other, j) => j !== i && other[0]![0] === lon && other[0]![1] === end[1])
    if (next < 0) continue
    const joined = [...lines[i]!, ...lines[next]!.slice(1)]
    lines[i] = dropCutPositions(joined, lon, new Set([end[1]!]), false)
    lines.splice(next, 1)
    i = -1
  }
  if (lines.length === geometry.coordinates.length) return geometry
  return lines.length === 1
    ? { type: 'LineString', coordinates: lines[0]! }
    : { type: 'MultiLineString', coordinates: lines }
}

/** A run of positions from one point of the meridian to another, on one side of it. */
interface Chain {
  readonly positions: Position[]
  readonly east: boolean
  used: boolean
}

function joinPolygons(geometry: MultiPolygon, lon: number): MultiPolygon | Polygon {
  const touching = geometry.coordinates.filter((polygon) => polygon.some((ring) => edgesAlong(ring, lon).length > 0))
  const latitudes = [...new Set(touching.flat(2).flatMap((p) => (p[0] === lon ? [p[1]!] : [])))].sort((a, b) => a - b)
  const parts = touching.map((polygon) => ({
    polygon,
    rings: polygon.map((ring, i) => splitAlong(turned(ring, i === 0), lon, latitudes)),
  }))
  const cancelled = meetingEdges(
    parts.flatMap((part) => part.rings),
    lon,
  )
  const met = parts.filter(({ rings }) => rings.some((ring) => chainsOf(ring, lon, cancelled)))
  if (met.length === 0) return geometry
  const whole: Position[][] = []
  const chains: Chain[] = []
  for (const ring of met.flatMap((part) => part.rings)) {
    const runs = chainsOf(ring, lon, cancelled)
    if (runs) chains.push(...runs)
    else whole.push(ring)
  }
  const loops = linkChains(chains)
  if (!loops) return geometry
  const cutAt = new Set([...cancelled].flatMap((key) => key.split(' ').map(Number)))
  const cleaned = loops.map((loop) => dropCutPositions(loop, lon, cutAt, true))
  const first = met[0]!.polygon
  const keepWinding = signedArea(first[0]!) >= 0
  const joined = polygonsOf([...cleaned, ...whole]).map((p) => (keepWinding ? p : p.map((r) => [...r].reverse())))
  const gone = new Set(met.map((part) => part.polygon))
  const all = geometry.coordinates.flatMap((polygon) => {
    if (polygon === first) return joined
    return gone.has(polygon) ? [] : [polygon]
  })
  return all.length === 1 ? { type: 'Polygon', coordinates: all[0]! } : { type: 'MultiPolygon', coordinates: all }
}

/** Twice the area in square degrees, positive where the ring runs counter-clockwise. */
export function signedArea(ring: readonly Position[]): number {
  let sum = 0
  const [lon0, lat0] = ring[0]!
  for (let i = 1; i < ring.length; i++) {
    const [a, b] = [ring[i - 1]!, ring[i]!]
    sum += (a[0]! - lon0!) * (b[1]! - lat0!) - (b[0]! - lon0!) * (a[1]! - lat0!)
  }
  return sum
}

function turned(ring: Position[], counterClockwise: boolean): Position[] {
  return signedArea(ring) >= 0 === counterClockwise ? ring : [...ring].reverse()
}

function edgesAlong(ring: readonly Position[], lon: number): number[] {
  const found: number[] = []
  for (let i = 1; i < ring.length; i++)
    if (ring[i - 1]![0] === lon && ring[i]![0] === lon && ring[i - 1]![1] !== ring[i]![1]) found.push(i)
  return found
}

/** The ring with its edges along the meridian split at every latitude where any part has a position there. */
function splitAlong(ring: Position[], lon: number, latitudes: readonly number[]): Position[] {
  const edges = new Set(edgesAlong(ring, lon))
  if (edges.size === 0) return ring
  return ring.flatMap((p, i) => {
    if (!edges.has(i)) return [p]
    const from = ring[i - 1]![1]!
    const between = latitudes.filter((lat) => (lat - from) * (lat - p[1]!) < 0)
    if (p[1]! < from) between.reverse()
    return [...between.map((lat) => [lon, lat, ...p.slice(2)]), p]
  })
}

/** Edges along the meridian that one part runs northward and another southward, as `south north`. */
function meetingEdges(rings: readonly Position[][], lon: number): Set<string> {
  const north = new Set<string>()
  const south = new Set<string>()
  for (const ring of rings)
    for (const i of edgesAlong(ring, lon)) {
      const [a, b] = [ring[i - 1]![1]!, ring[i]![1]!]
      if (a < b) north.add(`${a} ${b}`)
      else south.add(`${b} ${a}`)
    }
  return new Set([...north].filter((key) => south.has(key)))
}

/** The runs of a ring between its cancelled edges; null where it has none of those. */
function chainsOf(ring: Position[], lon: number, cancelled: ReadonlySet<string>): Chain[] | null {
  const cuts = edgesAlong(ring, lon).filter((i) => {
    const [a, b] = [ring[i - 1]![1]!, ring[i]![1]!]
    return cancelled.has(`${Math.min(a, b)} ${Math.max(a, b)}`)
  })
  if (cuts.length === 0) return null
  const east = ring.some((p) => p[0]! > lon)
  const open = ring.slice(0, -1)
  return cuts.flatMap((cut, k) => {
    const next = cuts[(k + 1) % cuts.length]! - 1
    const positions: Position[] = []
    const span = next >= cut ? next - cut : next - cut + open.length
    for (let step = 0; step <= span; step++) positions.push(open[(cut + step) % open.length]!)
    return positions.length > 1 ? [{ positions, east, used: false }] : []
  })
}

/** Closed loops of chains, each going on where another ends, by choice on the other side; null where one does not. */
function linkChains(chains: Chain[]): Position[][] | null {
  const loops: Position[][] = []
  for (const first of chains) {
    if (first.used) continue
    first.used = true
    const loop = [...first.positions]
    for (let last = first; ; ) {
      const end = loop.at(-1)!
      if (end[1] === first.positions[0]![1] && loop.length > 3) break
      const next = chains
        .filter((chain) => !chain.used && chain.positions[0]![1] === end[1])
        .sort((a, b) => Number(a.east === last.east) - Number(b.east === last.east))[0]
      if (!next) return null
      next.used = true
      loop.push(...next.positions.slice(1))
      last = next
    }
    loops.push(loop)
  }
  return loops
}

/** Polygons of rings by their winding: each hole goes to the outer ring that holds it. */
function polygonsOf(rings: readonly Position[][]): Position[][][] {
  const polygons = rings.filter((ring) => signedArea(ring) > 0).map((outer) => [outer])
  for (const hole of rings.filter((ring) => signedArea(ring) <= 0)) {
    const holder = polygons.find((polygon) => holds(polygon[0]!, hole)) ?? polygons[0]
    holder?.push(hole)
  }
  return polygons
}

function holds(outer: readonly Position[], hole: readonly Position[]): boolean {
  const apart = hole.find((p) => !outer.some((q) => q[0] === p[0] && q[1] === p[1])) ?? hole[0]!
  let inside = false
  for (let i = 1; i < outer.length; i++) {
    const [a, b] = [outer[i - 1]!, outer[i]!]
    if (a[1]! > apart[1]! === b[1]! > apart[1]!) continue
    if (apart[0]! < a[0]! + ((b[0]! - a[0]!) * (apart[1]! - a[1]!)) / (b[1]! - a[1]!)) inside = !inside
  }
  return inside
}
