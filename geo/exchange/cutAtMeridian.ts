import type { Geometry, Position } from 'geojson'
import { polygonsOf, turned } from './rings.ts'

type Side = 'west' | 'east'

/**
 * Cuts a geometry that crosses the meridian `lon` (±180, as unwrapped) into parts on either side of it, as RFC 7946
 * §3.1.9 asks of writers; longitudes come back within ±180. What does not cross comes back as it is. The opposite of
 * `joinAtMeridian`.
 */
export function cutAtMeridian(geometry: Geometry, lon: number): Geometry {
  if (geometry.type === 'GeometryCollection')
    return { ...geometry, geometries: geometry.geometries.map((part) => cutAtMeridian(part, lon)) }
  if (geometry.type === 'LineString' || geometry.type === 'MultiLineString') {
    const lines = geometry.type === 'LineString' ? [geometry.coordinates] : geometry.coordinates
    if (!lines.some((line) => crosses(line, lon))) return geometry
    const parts = lines.flatMap((line) => (['west', 'east'] as const).flatMap((side) => runsOn(line, lon, side)))
    return { type: 'MultiLineString', coordinates: parts }
  }
  if (geometry.type !== 'Polygon' && geometry.type !== 'MultiPolygon') return geometry
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates
  if (!polygons.some((polygon) => crosses(polygon[0]!, lon))) return geometry
  const parts = polygons.flatMap((polygon) => (['west', 'east'] as const).flatMap((side) => clip(polygon, lon, side)))
  return { type: 'MultiPolygon', coordinates: parts }
}

function crosses(line: readonly Position[], lon: number): boolean {
  return line.some((p) => p[0]! < lon) && line.some((p) => p[0]! > lon)
}

function isOn(side: Side, p: Position, lon: number): boolean {
  return side === 'west' ? p[0]! < lon : p[0]! > lon
}

/** The position with its longitude within ±180, where the meridian itself is 180 seen from the west and −180 from the east. */
function settled(p: Position, lon: number, side: Side): Position {
  const shift = side === 'west' ? (lon < 0 ? 360 : 0) : lon > 0 ? -360 : 0
  return [p[0]! + shift, ...p.slice(1)]
}

/** The line with a position wherever it crosses the meridian. */
function marked(line: readonly Position[], lon: number): Position[] {
  return line.flatMap((p, i) => {
    const before = line[i - 1]
    if (!before || (before[0]! - lon) * (p[0]! - lon) >= 0) return [p]
    const part = (lon - before[0]!) / (p[0]! - before[0]!)
    return [[lon, ...p.slice(1).map((value, k) => before[k + 1]! + part * (value - before[k + 1]!))], p]
  })
}

/** The runs of a line on one side, each from the meridian to the meridian or to an end of the line. */
function runs(line: readonly Position[], lon: number, side: Side): Position[][] {
  const found: Position[][] = []
  let run: Position[] = []
  const full = marked(line, lon)
  full.forEach((p, i) => {
    const next = full[i + 1]
    if (run.length > 0) run.push(p)
    else if (isOn(side, p, lon)) run = [p]
    else if (next && isOn(side, next, lon)) run = [p]
    if (run.length > 1 && !isOn(side, p, lon) && !(next && isOn(side, next, lon))) {
      found.push(run)
      run = []
    }
  })
  if (run.length > 1) found.push(run)
  return found
}

function runsOn(line: readonly Position[], lon: number, side: Side): Position[][] {
  return runs(line, lon, side).map((run) => run.map((p) => settled(p, lon, side)))
}

/** The part of a polygon on one side. Going along the meridian with the inside on the left links each run to the next. */
function clip(polygon: readonly Position[][], lon: number, side: Side): Position[][][] {
  const whole: Position[][] = []
  const open: Position[][] = []
  polygon.forEach((given, i) => {
    const ring = fromMeridian(turned(given, i === 0), lon)
    if (ring.every((p) => !isOn(side, p, lon))) return
    if (ring.every((p) => isOn(side, p, lon))) whole.push(ring)
    else for (const run of runs(ring, lon, side)) open.push(run)
  })
  const closed = linked(open, side)
  return polygonsOf([...closed, ...whole]).map((rings) => rings.map((ring) => ring.map((p) => settled(p, lon, side))))
}

/** The ring so that it begins on the meridian, if it ever is there. */
function fromMeridian(ring: Position[], lon: number): Position[] {
  const full = marked(ring, lon)
  const at = full.findIndex((p) => p[0] === lon)
  return at <= 0 ? full : [...full.slice(at, -1), ...full.slice(0, at + 1)]
}

function linked(open: readonly Position[][], side: Side): Position[][] {
  const left = new Set(open)
  const closed: Position[][] = []
  for (const first of open) {
    if (!left.delete(first)) continue
    let loop = first
    for (;;) {
      const end = loop.at(-1)![1]!
      const ahead = [first, ...left].filter((run) => (side === 'west' ? run[0]![1]! >= end : run[0]![1]! <= end))
      const next = ahead.sort((a, b) => Math.abs(a[0]![1]! - end) - Math.abs(b[0]![1]! - end))[0]
      if (!next || next === first) break
      left.delete(next)
      loop = loop.concat(next)
    }
    closed.push([...loop, loop[0]!].filter((p, i, all) => i === 0 || p.some((value, k) => value !== all[i - 1]![k])))
  }
  return closed
}
