import type { Metres } from '../plane/lonLat.ts'

/** Metres of a straight line that lie within a radius of a place. */
export function lengthWithin(
  [[ax, ay], [bx, by]]: readonly [Metres, Metres],
  [cx, cy]: Metres,
  radiusM: number,
): number {
  const lengthM = Math.hypot(bx - ax, by - ay)
  if (lengthM === 0) return 0
  const [ux, uy] = [(bx - ax) / lengthM, (by - ay) / lengthM]
  const along = (cx - ax) * ux + (cy - ay) * uy
  const off = (cx - ax) * uy - (cy - ay) * ux
  if (Math.abs(off) >= radiusM) return 0
  const half = Math.sqrt(radiusM * radiusM - off * off)
  return Math.max(0, Math.min(lengthM, along + half) - Math.max(0, along - half))
}
