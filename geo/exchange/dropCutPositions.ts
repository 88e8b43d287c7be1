import type { Position } from 'geojson'

/** How far off the straight line a cut may have been written, in degrees (about 0.1 mm). */
const OFF_LINE_DEG = 1e-9

/**
 * The line or closed ring without the positions that cutting at the meridian `lon` put in: those at one of the latitudes
 * `cutAt` that lie on the straight line between their neighbours, and repeats.
 */
export function dropCutPositions(
  positions: readonly Position[],
  lon: number,
  cutAt: ReadonlySet<number>,
  closed: boolean,
): Position[] {
  const list = closed ? positions.slice(0, -1) : [...positions]
  for (let i = 0; i < list.length; i++) {
    const p = list[i]!
    if (p[0] !== lon || !cutAt.has(p[1]!)) continue
    if (!closed && (i === 0 || i === list.length - 1)) continue
    if (list.length <= (closed ? 3 : 2)) break
    const before = list[(i + list.length - 1) % list.length]!
    const after = list[(i + 1) % list.length]!
    if (offLine(p, before, after) > OFF_LINE_DEG) continue
    list.splice(i, 1)
    i = Math.max(-1, i - 2)
  }
  return closed ? [...list, list[0]!] : list
}

/** Distance in degrees of a position from the stretch between two others. */
function offLine(p: Position, a: Position, b: Position): number {
  const [dx, dy] = [b[0]! - a[0]!, b[1]! - a[1]!]
  const [px, py] = [p[0]! - a[0]!, p[1]! - a[1]!]
  const length2 = dx * dx + dy * dy
  if (length2 === 0) return Math.hypot(px, py)
  const along = Math.min(1, Math.max(0, (px * dx + py * dy) / length2))
  return Math.hypot(px - along * dx, py - along * dy)
}
