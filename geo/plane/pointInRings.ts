import type { Metres } from './lonLat.ts'

/** Whether a place lies inside an area given by its rings, holes counted out (even–odd rule). */
export function pointInRings([x, y]: Metres, rings: readonly (readonly Metres[])[]): boolean {
  let inside = false
  for (const ring of rings)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[i]!
      const [bx, by] = ring[j]!
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
    }
  return inside
}
