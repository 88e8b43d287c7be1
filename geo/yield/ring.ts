import type { Metres } from '../plane/lonLat.ts'

/**
 * A closed ring in the farm's plane as flat metres `[x0, y0, x1, y1, …]`, first vertex not repeated.
 * An outer ring runs counter-clockwise, a hole clockwise, so signed areas of a polygon's rings add up to its area.
 */
export type Ring = readonly number[]

/** The corners of a ring, in order. */
export function cornersOf(ring: Ring): Metres[] {
  return Array.from({ length: ring.length / 2 }, (_, k) => [ring[2 * k]!, ring[2 * k + 1]!])
}

/** Least x, least y, greatest x, greatest y, in metres. */
export type Bounds = readonly [number, number, number, number]

/** Signed area in m², positive when counter-clockwise (shoelace formula about the first vertex). */
export function ringAreaM2(ring: Ring): number {
  const x0 = ring[0] ?? 0
  const y0 = ring[1] ?? 0
  let twice = 0
  let px = 0
  let py = 0
  for (let k = 2; k < ring.length; k += 2) {
    const x = ring[k]! - x0
    const y = ring[k + 1]! - y0
    twice += px * y - x * py
    px = x
    py = y
  }
  return twice / 2
}

/** Area in m² of a polygon or of several, holes taken off. */
export function ringsAreaM2(rings: readonly Ring[]): number {
  let area = 0
  for (const ring of rings) area += ringAreaM2(ring)
  return area
}

/** Centre of mass of polygons with some area; holes count against it. */
export function ringsCentroid(rings: readonly Ring[]): readonly [number, number] {
  const x0 = rings[0]?.[0] ?? 0
  const y0 = rings[0]?.[1] ?? 0
  let twice = 0
  let mx = 0
  let my = 0
  for (const ring of rings) {
    let px = ring[ring.length - 2]! - x0
    let py = ring[ring.length - 1]! - y0
    for (let k = 0; k < ring.length; k += 2) {
      const x = ring[k]! - x0
      const y = ring[k + 1]! - y0
      const cross = px * y - x * py
      twice += cross
      mx += (px + x) * cross
      my += (py + y) * cross
      px = x
      py = y
    }
  }
  return twice === 0 ? [x0, y0] : [x0 + mx / (3 * twice), y0 + my / (3 * twice)]
}

/** The box around rings; of nothing, a box that meets nothing. */
export function ringsBounds(rings: readonly Ring[]): Bounds {
  let minX = Number.POSITIVE_INFINITY
  let minY = Number.POSITIVE_INFINITY
  let maxX = Number.NEGATIVE_INFINITY
  let maxY = Number.NEGATIVE_INFINITY
  for (const ring of rings) {
    for (let k = 0; k < ring.length; k += 2) {
      const x = ring[k]!
      const y = ring[k + 1]!
      if (x < minX) minX = x
      if (x > maxX) maxX = x
      if (y < minY) minY = y
      if (y > maxY) maxY = y
    }
  }
  return [minX, minY, maxX, maxY]
}

/** Rings of a polygon given as GeoJSON coordinates (in metres of the plane), opened and turned the right way round. */
export function ringsOfPolygon(coordinates: readonly (readonly (readonly number[])[])[]): Ring[] {
  return coordinates.map((closed, k) => {
    const flat = closed.slice(0, -1).flatMap((p) => [p[0]!, p[1]!])
    const outer = k === 0
    return ringAreaM2(flat) > 0 === outer ? flat : reversed(flat)
  })
}

function reversed(ring: Ring): Ring {
  const out: number[] = []
  for (let k = ring.length - 2; k >= 0; k -= 2) out.push(ring[k]!, ring[k + 1]!)
  return out
}
