import type { Geometry, LineString, MultiLineString, MultiPolygon, Polygon, Position } from 'geojson'
import { dropCutPositions } from './dropCutPositions.ts'
import { polygonsOf, signedArea, turned } from './rings.ts'

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

/** More meetings with the meridian than this are no farm's; such a shape is left as it is. */
const MOST_MEETINGS = 2000

function joinLines(geometry: MultiLineString, lon: number): MultiLineString | LineString {
  const lines = geometry.coordinates
  const startAt = new Map<number, Position[]>()
  for (const line of lines) if (line[0]![0] === lon) startAt.set(line[0]![1]!, line)
  const followed = new Map<Position[], Position[]>()
  const follows = new Set<Position[]>()
  for (const line of lines) {
    const end = line.at(-1)!
    const next = end[0] === lon ? startAt.get(end[1]!) : undefined
    if (!next || next === line || follows.has(next)) continue
    followed.set(line, next)
    follows.add(next)
  }
  if (followed.size === 0 || followed.size > MOST_MEETINGS) return geometry
  const joined = lines.flatMap((line) => (follows.has(line) ? [] : [lineFrom(line, followed, lon)]))
  if (joined.length + followed.size !== lines.length) return geometry
  return joined.length === 1
    ? { type: 'LineString', coordinates: joined[0]! }
    : { type: 'MultiLineString', coordinates: joined }
}

function lineFrom(first: Position[], followed: ReadonlyMap<Position[], Position[]>, lon: number): Position[] {
  let line = first
  const cutAt = new Set<number>()
  for (let next = followed.get(first); next; next = followed.get(next)) {
    cutAt.add(line.at(-1)![1]!)
    line = line.concat(next.slice(1))
  }
  return cutAt.size === 0 ? first : dropCutPositions(line, lon, cutAt, false)
}

/** A run of positions from one point of the meridian to another, on one side of it. */
interface Chain {
  readonly positions: Position[]
  readonly east: boolean
  used: boolean
}

function joinPolygons(geometry: MultiPolygon, lon: number): MultiPolygon | Polygon {
  const touching = geometry.coordinates.filter((polygon) => polygon.some((ring) => edgesAlong(ring, lon).length > 0))
  const meetings = touching.flatMap((polygon) => polygon.map((ring) => edgesAlong(ring, lon).length))
  if (meetings.reduce((sum, n) => sum + n, 0) > MOST_MEETINGS) return geometry
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
    if (runs) for (const run of runs) chains.push(run)
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
    let loop = first.positions
    for (let last = first; ; ) {
      const end = loop.at(-1)!
      if (end[1] === first.positions[0]![1] && loop.length > 3) break
      const next = chains
        .filter((chain) => !chain.used && chain.positions[0]![1] === end[1])
        .sort((a, b) => Number(a.east === last.east) - Number(b.east === last.east))[0]
      if (!next) return null
      next.used = true
      loop = loop.concat(next.positions.slice(1))
      last = next
    }
    loops.push(loop)
  }
  return loops
}
