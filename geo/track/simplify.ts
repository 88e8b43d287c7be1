import type { Metres } from '../plane/lonLat.ts'

/**
 * A line with fewer corners, none of what is dropped farther from it than the tolerance (Douglas & Peucker 1973,
 * Cartographica 10(2), 112–122), in the plane. Both ends stay.
 */
export function simplifyLine(line: readonly Metres[], toleranceM: number): Metres[] {
  if (line.length < 3) return [...line]
  const kept = new Set([0, line.length - 1])
  const open: [number, number][] = [[0, line.length - 1]]
  for (let span = open.pop(); span; span = open.pop()) {
    const [from, to] = span
    let far = -1
    let most = toleranceM
    for (let n = from + 1; n < to; n += 1) {
      const offM = fromSegment(line[n]!, line[from]!, line[to]!)
      if (offM > most) [far, most] = [n, offM]
    }
    if (far < 0) continue
    kept.add(far)
    open.push([from, far], [far, to])
  }
  return line.filter((_, n) => kept.has(n))
}

/** A closed ring (its first corner not said again) with fewer corners: cut where it lies farthest from its first corner, each half by itself. */
export function simplifyRing(ring: readonly Metres[], toleranceM: number): Metres[] {
  if (ring.length < 4) return [...ring]
  const first = ring[0]!
  const far = ring.reduce((best, at, n) => (apart(at, first) > apart(ring[best]!, first) ? n : best), 0)
  if (far === 0) return [...ring]
  const there = simplifyLine(ring.slice(0, far + 1), toleranceM)
  const back = simplifyLine([...ring.slice(far), first], toleranceM)
  const both = [...there, ...back.slice(1, -1)]
  // The cut's own first corner may lie in the middle of a side.
  const [a, b, c] = [both.at(-1)!, both[0]!, both[1]!]
  return both.length > 3 && fromSegment(b, a, c) <= toleranceM ? both.slice(1) : both
}

const apart = (a: Metres, b: Metres) => Math.hypot(a[0] - b[0], a[1] - b[1])

function fromSegment(p: Metres, a: Metres, b: Metres): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const size = dx * dx + dy * dy
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size))
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)
}
