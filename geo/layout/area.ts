import type { Metres } from '../plane/lonLat.ts'

/** Ground in the plane, as rings whose first corner is not said again; even–odd, so that rings within rings are holes. */
export type Area = readonly (readonly Metres[])[]

export type Segment = readonly [from: Metres, to: Metres]

/** The edges of an area, ring by ring. */
export function edgesOf(area: Area): Segment[] {
  return area.flatMap((ring) => ring.map((at, n): Segment => [at, ring[(n + 1) % ring.length]!]))
}

/** True where a place lies in an area. Which way a place on an edge falls is not said. */
export function isIn(area: Area, [x, y]: Metres): boolean {
  let inside = false
  for (const ring of area)
    for (let n = 0, m = ring.length - 1; n < ring.length; m = n, n += 1) {
      const [[ax, ay], [bx, by]] = [ring[m]!, ring[n]!]
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
    }
  return inside
}

/** Area in m², holes left out: the outer rings' less the inner ones', each ring's by the shoelace formula. */
export function areaM2(area: Area): number {
  return area.reduce((sum, ring, n) => sum + (depthOf(area, n) % 2 === 0 ? 1 : -1) * ringM2(ring), 0)
}

/** In how many other rings a ring lies; rings may touch in corners, so that the middle of its first edge is asked. */
function depthOf(area: Area, n: number): number {
  const [[ax, ay], [bx, by]] = [area[n]![0]!, area[n]![1]!]
  return area.filter((ring, m) => m !== n && isIn([ring], [(ax + bx) / 2, (ay + by) / 2])).length
}

/** Reckoned from the first corner, so that ground far from the origin loses nothing. */
function ringM2(ring: readonly Metres[]): number {
  const [x0, y0] = ring[0]!
  let twice = 0
  for (let n = 1; n + 1 < ring.length; n += 1) {
    const [[ax, ay], [bx, by]] = [ring[n]!, ring[n + 1]!]
    twice += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
  }
  return Math.abs(twice) / 2
}
