import type { Metres } from './lonLat.ts'

/** Metres from a place to the nearest point of a line. Infinite where the line has no points. */
export function distanceToLine([x, y]: Metres, line: readonly Metres[]): number {
  let least = line.length === 1 ? Math.hypot(line[0]![0] - x, line[0]![1] - y) : Number.POSITIVE_INFINITY
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!]
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    const size = dx * dx + dy * dy
    const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / size))
    least = Math.min(least, Math.hypot(x - a[0] - t * dx, y - a[1] - t * dy))
  }
  return least
}
