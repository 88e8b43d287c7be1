import type { Metres } from '../../geo/plane/lonLat.ts'
import { distanceM } from './measureShape.ts'

export type Segment = readonly [from: Metres, to: Metres]

/** What the pointer can be held to: a corner or an edge of what stands, a right angle to or a parallel of one, or an edge carried on beyond its end. */
export const SNAPS = ['corner', 'edge', 'square', 'parallel', 'extension'] as const
export type SnapName = (typeof SNAPS)[number]
/** Which of them are wanted. */
export type Snaps = Readonly<Record<SnapName, boolean>>
export const ALL_SNAPS: Snaps = { corner: true, edge: true, square: true, parallel: true, extension: true }

/** A line that shows what the pointer is held to: where it is held, and the edge that it goes by. */
export interface Guide {
  readonly as: SnapName
  readonly line: Segment
  readonly by: Segment | null
}
export interface Held {
  readonly at: Metres
  readonly snapped: SnapName | 'typed' | null
  readonly guides: readonly Guide[]
}

/** What lies about the pointer: edges close by, edges further off that may be carried on, how far the pointer reaches, and what it may be held to. */
export interface Surroundings {
  readonly edges: readonly Segment[]
  readonly far: readonly Segment[]
  readonly reachM: number
  readonly snaps: Snaps
}

/** From where a side is being drawn, and the sides that it may be square to or parallel with besides those that stand. */
export interface Drawing {
  readonly from: Metres
  readonly own: readonly Segment[]
}

/** How far off a right angle or parallel may be and still be taken for one. */
const SQUARE_DEG = 5
/** An edge is carried on over at most so many times the pointer's reach. */
const CARRIED = 20

/** Where on a segment a place is nearest to. */
export function footOn([a, b]: Segment, p: Metres): Metres {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const size = dx * dx + dy * dy
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size))
  return [a[0] + t * dx, a[1] + t * dy]
}

/** The place at exactly so many metres from `from` toward another; that other itself where both are one. */
export function atLength(from: Metres, toward: Metres, lengthM: number): Metres {
  const size = distanceM(from, toward)
  if (size === 0) return toward
  return [from[0] + ((toward[0] - from[0]) / size) * lengthM, from[1] + ((toward[1] - from[1]) / size) * lengthM]
}

/** The place nothing holds. */
export const free = (at: Metres): Held => ({ at, snapped: null, guides: [] })

/** A line that the pointer may be held to: a place on it, its direction (a unit vector), and how it is shown. */
interface Line {
  readonly as: SnapName
  readonly at: Metres
  readonly u: Metres
  readonly offM: number
  /** An edge ends where it ends; the others go on. */
  readonly within: Segment | null
  guide(at: Metres): Guide
}

/**
 * Where a place is held: at the nearest corner within reach, else where two lines cross within reach, else on the
 * nearest line (an edge before the others), else nowhere.
 */
export function hold(p: Metres, { edges, far, reachM, snaps }: Surroundings, drawing: Drawing | null = null): Held {
  const corner = snaps.corner ? nearestCorner(p, edges, reachM) : null
  if (corner) return { at: corner, snapped: 'corner', guides: [] }
  const lines = [
    ...(snaps.edge ? edges.flatMap((edge) => onEdge(p, edge, reachM)) : []),
    ...(snaps.extension ? far.flatMap((edge) => onExtension(p, edge, reachM)) : []),
    ...(drawing ? onDirections(p, drawing, edges, reachM, snaps) : []),
  ].sort((a, b) => rank(a) - rank(b) || a.offM - b.offM)
  const [first] = lines
  if (!first) return free(p)
  for (const second of lines) {
    const at = meet(first, second)
    if (at && distanceM(at, p) <= reachM) return { at, snapped: first.as, guides: [first.guide(at), second.guide(at)] }
  }
  return { at: first.at, snapped: first.as, guides: [first.guide(first.at)] }
}

const rank = ({ as }: Line) => (as === 'edge' ? 0 : as === 'extension' ? 2 : 1)

function nearestCorner(p: Metres, edges: readonly Segment[], reachM: number): Metres | null {
  let corner: Metres | null = null
  for (const edge of edges)
    for (const end of edge) if (distanceM(p, end) <= (corner ? distanceM(p, corner) : reachM)) corner = end
  return corner
}

const unitOf = ([a, b]: Segment): Metres | null => {
  const size = distanceM(a, b)
  return size === 0 ? null : [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
}

function onEdge(p: Metres, edge: Segment, reachM: number): Line[] {
  const at = footOn(edge, p)
  const offM = distanceM(p, at)
  const u = unitOf(edge)
  return !u || offM > reachM
    ? []
    : [{ as: 'edge', at, u, offM, within: edge, guide: () => ({ as: 'edge', line: edge, by: null }) }]
}

function onExtension(p: Metres, edge: Segment, reachM: number): Line[] {
  const u = unitOf(edge)
  if (!u) return []
  const [a, b] = edge
  const along = (p[0] - a[0]) * u[0] + (p[1] - a[1]) * u[1]
  const beyond = along < 0 ? -along : along - distanceM(a, b)
  const offM = Math.abs((p[1] - a[1]) * u[0] - (p[0] - a[0]) * u[1])
  if (beyond <= 0 || beyond > reachM * CARRIED || offM > reachM) return []
  const end = along < 0 ? a : b
  const at: Metres = [a[0] + along * u[0], a[1] + along * u[1]]
  return [
    { as: 'extension', at, u, offM, within: null, guide: (held) => ({ as: 'extension', line: [end, held], by: edge }) },
  ]
}

/** Lines from where the side begins, square to or along the sides about: within 5° of the pointer and within reach. */
function onDirections(
  p: Metres,
  { from, own }: Drawing,
  edges: readonly Segment[],
  reachM: number,
  snaps: Snaps,
): Line[] {
  const [dx, dy] = [p[0] - from[0], p[1] - from[1]]
  const size = Math.hypot(dx, dy)
  if (size === 0) return []
  const most = Math.min(reachM, size * Math.sin((SQUARE_DEG * Math.PI) / 180))
  return [...own, ...edges].flatMap((by): Line[] => {
    const along = unitOf(by)
    if (!along) return []
    const ways: readonly (readonly ['square' | 'parallel', Metres])[] = [
      ['parallel', along],
      ['square', [-along[1], along[0]]],
    ]
    return ways.flatMap(([as, u]): Line[] => {
      const offM = Math.abs(dy * u[0] - dx * u[1])
      if (!snaps[as] || offM >= most) return []
      const s = dx * u[0] + dy * u[1]
      const at: Metres = [from[0] + s * u[0], from[1] + s * u[1]]
      return [{ as, at, u, offM, within: null, guide: (held) => ({ as, line: [from, held], by }) }]
    })
  })
}

/** Where two lines cross, if they do so at more than some 6° and, of an edge, between its ends. */
function meet(one: Line, other: Line): Metres | null {
  const cross = one.u[0] * other.u[1] - one.u[1] * other.u[0]
  if (Math.abs(cross) < 0.1) return null
  const [dx, dy] = [other.at[0] - one.at[0], other.at[1] - one.at[1]]
  const s = (dx * other.u[1] - dy * other.u[0]) / cross
  const at: Metres = [one.at[0] + s * one.u[0], one.at[1] + s * one.u[1]]
  const on = ({ within }: Line) => !within || distanceM(footOn(within, at), at) < 1e-9 * (1 + distanceM(...within))
  return on(one) && on(other) ? at : null
}
