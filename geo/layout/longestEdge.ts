import type { Metres } from '../plane/lonLat.ts'
import type { Area, Segment } from './area.ts'
import { bearingOf } from './turnedFrame.ts'

/** A side that turns less than this at a corner is taken to go straight on there. */
const STRAIGHT_ON_DEG = 1

/**
 * The longest side of an area: of its edges, those that go straight on from one to the next taken together. Null where
 * it has none.
 */
export function longestEdge(area: Area): { readonly bearingDeg: number; readonly lengthM: number } | null {
  let best: { bearingDeg: number; lengthM: number } | null = null
  for (const ring of area)
    for (const [a, b] of sidesOf(ring)) {
      const lengthM = Math.hypot(b[0] - a[0], b[1] - a[1])
      if (lengthM > (best?.lengthM ?? 0)) best = { lengthM, bearingDeg: bearingOf([b[0] - a[0], b[1] - a[1]]) }
    }
  return best
}

function sidesOf(ring: readonly Metres[]): Segment[] {
  const around = ring.filter((at, n) => {
    const before = ring[(n + ring.length - 1) % ring.length]!
    return Math.hypot(at[0] - before[0], at[1] - before[1]) > 0
  })
  const corners = around.filter((at, n) => {
    const before = around[(n + around.length - 1) % around.length]!
    const after = around[(n + 1) % around.length]!
    return turnDeg(before, at, after) >= STRAIGHT_ON_DEG
  })
  return corners.map((at, n): Segment => [at, corners[(n + 1) % corners.length]!])
}

function turnDeg(a: Metres, b: Metres, c: Metres): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]]
  return Math.abs((Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * 180) / Math.PI)
}
