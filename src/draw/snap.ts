import type { Metres } from '../../geo/plane/lonLat.ts'
import { distanceM } from './measureShape.ts'
import type { LiveMeasures } from './session.ts'

export interface Held {
  readonly at: Metres
  readonly snapped: LiveMeasures['snapped']
}
export type Segment = readonly [from: Metres, to: Metres]

/** How far off a right angle or parallel may be and still be taken for one. */
const SQUARE_DEG = 5

/** Where on a segment a place is nearest to. */
export function footOn([a, b]: Segment, p: Metres): Metres {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const size = dx * dx + dy * dy
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size))
  return [a[0] + t * dx, a[1] + t * dy]
}

/** The nearest corner within reach, else the nearest place on an edge within reach, else the place itself. */
export function snapToEdges(p: Metres, edges: readonly Segment[], reachM: number): Held {
  let corner: Metres | null = null
  let edge: Metres | null = null
  for (const segment of edges) {
    for (const end of segment) if (distanceM(p, end) <= (corner ? distanceM(p, corner) : reachM)) corner = end
    const foot = footOn(segment, p)
    if (distanceM(p, foot) <= (edge ? distanceM(p, edge) : reachM)) edge = foot
  }
  if (corner) return { at: corner, snapped: 'corner' }
  return edge ? { at: edge, snapped: 'edge' } : { at: p, snapped: null }
}

/** Turns the place about `from` into the nearest direction square to or along one of the directions, if it is all but there already: within 5° and within reach. */
export function snapSquare(from: Metres, p: Metres, directions: readonly Metres[], reachM: number): Held {
  const [dx, dy] = [p[0] - from[0], p[1] - from[1]]
  const size = Math.hypot(dx, dy)
  let best: Held = { at: p, snapped: null }
  let least = Math.min(reachM, size * Math.sin((SQUARE_DEG * Math.PI) / 180))
  for (const [ex, ey] of directions) {
    const length = Math.hypot(ex, ey)
    if (length === 0 || size === 0) continue
    for (const [ux, uy] of [
      [ex / length, ey / length],
      [-ey / length, ex / length],
    ] as const) {
      const off = Math.abs(dy * ux - dx * uy)
      if (off >= least) continue
      least = off
      const along = dx * ux + dy * uy
      best = { at: [from[0] + along * ux, from[1] + along * uy], snapped: 'square' }
    }
  }
  return best
}

/** The place at exactly so many metres from `from` toward another; that other itself where both are one. */
export function atLength(from: Metres, toward: Metres, lengthM: number): Metres {
  const size = distanceM(from, toward)
  if (size === 0) return toward
  return [from[0] + ((toward[0] - from[0]) / size) * lengthM, from[1] + ((toward[1] - from[1]) / size) * lengthM]
}
