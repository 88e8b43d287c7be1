import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import type { Handle } from '../reshape.ts'
import type { Corners, Shape } from '../shape.ts'

/** How far a corner may be from square and still be taken for one: a hundredth of the shorter side. */
const SQUARE_WITHIN = 0.01

/** True where a shape is one ring of four right angles. */
export function isRightAngled(shape: Shape): boolean {
  const [ring] = shape.parts
  if (shape.type !== 'Polygon' || shape.parts.length !== 1 || ring?.length !== 4) return false
  return ring.every((p, i) => {
    const [a, b] = [ring[(i + 3) % 4]!, ring[(i + 1) % 4]!]
    const [u, v] = [distanceM(p, a), distanceM(p, b)]
    const dot = (a[0] - p[0]) * (b[0] - p[0]) + (a[1] - p[1]) * (b[1] - p[1])
    return u > 0 && v > 0 && Math.abs(dot) <= SQUARE_WITHIN * Math.min(u, v) * Math.max(u, v)
  })
}

/**
 * A right-angled shape with a corner or the middle of a side brought to a place, its angles kept: a corner takes its
 * two sides with it, the corner opposite stays; a side moves square to itself. As it was for the whole.
 */
export function moveRightAngled(shape: Shape, handle: Handle, to: Metres): Shape {
  const ring = shape.parts[0]!
  if (handle.at === 'whole') return shape
  const next = handle.at === 'corner' ? byCorner(ring, handle.corner, to) : bySide(ring, handle.after, to)
  return { type: 'Polygon', parts: [next] }
}

const unit = (a: Metres, b: Metres): Metres => {
  const size = distanceM(a, b)
  return [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
}

function byCorner(ring: Corners, n: number, to: Metres): Corners {
  const [before, after, stays] = [ring[(n + 3) % 4]!, ring[(n + 1) % 4]!, ring[(n + 2) % 4]!]
  const [ux, uy] = distanceM(stays, before) >= distanceM(stays, after) ? unit(stays, before) : perp(unit(stays, after))
  const [dx, dy] = [to[0] - stays[0], to[1] - stays[1]]
  const along = dx * ux + dy * uy
  const foot: Metres = [stays[0] + along * ux, stays[1] + along * uy]
  const other: Metres = [to[0] - along * ux, to[1] - along * uy]
  return ring.map((p, i) => (i === n ? to : i === (n + 3) % 4 ? foot : i === (n + 1) % 4 ? other : p))
}

const perp = ([x, y]: Metres): Metres => [y, -x]

function bySide(ring: Corners, n: number, to: Metres): Corners {
  const [a, b] = [ring[n]!, ring[(n + 1) % 4]!]
  const [nx, ny] = perp(unit(a, b))
  const by = (to[0] - a[0]) * nx + (to[1] - a[1]) * ny
  return ring.map((p, i) => (i === n || i === (n + 1) % 4 ? [p[0] + nx * by, p[1] + ny * by] : p))
}
