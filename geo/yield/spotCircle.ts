import type { HalfPlane } from './clipHalfPlane.ts'

/** A pick told by position counts to the ground within this of it. */
export const SPOT_RADIUS_M = 1

const SIDES = 16

/** The circle about a spot, as a convex window with 16 sides of the same area as the circle. */
export function spotCircle(x: number, y: number): HalfPlane[] {
  const turn = (2 * Math.PI) / SIDES
  const inner = SPOT_RADIUS_M * Math.sqrt(Math.PI / (SIDES * Math.tan(turn / 2)))
  return Array.from({ length: SIDES }, (_, k) => {
    const nx = -Math.cos(k * turn)
    const ny = -Math.sin(k * turn)
    return { nx, ny, c: nx * x + ny * y - inner }
  })
}
