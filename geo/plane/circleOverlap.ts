import type { Metres } from './lonLat.ts'

/**
 * Area in m² of the part of a circle that lies in a closed ring (metres); the ring may turn either way. Each edge adds
 * its triangle from the centre where it is inside the circle and its circular sector where it is outside (Green's
 * theorem), so the result is exact but for rounding.
 */
export function circleOverlap(ring: readonly Metres[], centre: Metres, radiusM: number): number {
  let twice = 0
  for (let i = 0; i + 1 < ring.length; i++) twice += edge(minus(ring[i]!, centre), minus(ring[i + 1]!, centre), radiusM)
  return Math.abs(twice) / 2
}

function edge(a: Metres, b: Metres, r: number): number {
  const [dx, dy] = minus(b, a)
  const lengthSq = dx * dx + dy * dy
  if (lengthSq === 0) return 0
  const along = -(a[0] * dx + a[1] * dy) / lengthSq
  const offSq = (a[0] + along * dx) ** 2 + (a[1] + along * dy) ** 2
  if (offSq >= r * r) return sector(a, b, r)
  const half = Math.sqrt((r * r - offSq) / lengthSq)
  const from = Math.min(Math.max(along - half, 0), 1)
  const to = Math.min(Math.max(along + half, 0), 1)
  const p: Metres = [a[0] + from * dx, a[1] + from * dy]
  const q: Metres = [a[0] + to * dx, a[1] + to * dy]
  return (from > 0 ? sector(a, p, r) : 0) + cross(p, q) + (to < 1 ? sector(q, b, r) : 0)
}

function sector(a: Metres, b: Metres, r: number): number {
  return r * r * Math.atan2(cross(a, b), a[0] * b[0] + a[1] * b[1])
}
const cross = (a: Metres, b: Metres) => a[0] * b[1] - a[1] * b[0]
const minus = (a: Metres, b: Metres): Metres => [a[0] - b[0], a[1] - b[1]]
