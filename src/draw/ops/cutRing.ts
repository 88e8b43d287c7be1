import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Corners } from '../shape.ts'

/** Nearer than this to a corner, a crossing is that corner: a hundredth of a millimetre. */
const AT_CORNER_M = 1e-5

/** Where two segments meet, by how far along each (0 to 1), or null where they don't or run alongside each other. */
export function crossing(a: Metres, b: Metres, c: Metres, d: Metres): { s: number; t: number; at: Metres } | null {
  const [rx, ry] = [b[0] - a[0], b[1] - a[1]]
  const [sx, sy] = [d[0] - c[0], d[1] - c[1]]
  const cross = rx * sy - ry * sx
  const [r, q] = [Math.hypot(rx, ry), Math.hypot(sx, sy)]
  if (r === 0 || q === 0 || Math.abs(cross) < 1e-12 * r * q) return null
  const [qx, qy] = [c[0] - a[0], c[1] - a[1]]
  const s = (qx * sy - qy * sx) / cross
  const t = (qx * ry - qy * rx) / cross
  const [slackR, slackQ] = [AT_CORNER_M / r, AT_CORNER_M / q]
  if (s < -slackR || s > 1 + slackR || t < -slackQ || t > 1 + slackQ) return null
  const near = (u: number, slack: number) => (u < slack ? 0 : u > 1 - slack ? 1 : u)
  const [ss, tt] = [near(s, slackR), near(t, slackQ)]
  const at: Metres = ss === 0 ? a : ss === 1 ? b : tt === 0 ? c : tt === 1 ? d : [a[0] + ss * rx, a[1] + ss * ry]
  return { s: ss, t: tt, at }
}

/** True where a place lies within rings by the even-odd rule, so that holes are outside. Places on an edge fall to either side. */
export function within(rings: readonly Corners[], [x, y]: Metres): boolean {
  let inside = false
  for (const ring of rings)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[i]!
      const [bx, by] = ring[j]!
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
    }
  return inside
}
