import type { Metres } from '../../geo/plane/lonLat.ts'
import { areaM2, lineLengthM } from './measureShape.ts'
import type { ShapeProblem } from './session.ts'
import { type Corners, isArea, type Shape } from './shape.ts'

/** Beyond this the plane's metres stray by more than 3 in 100,000. */
const MOST_M = 50_000
/** Less than a square millimetre, or a millimetre, is nothing. */
const LEAST_M2 = 1e-6
const LEAST_M = 1e-3

const side = (a: Metres, b: Metres, p: Metres): number =>
  Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]))
const between = (a: Metres, b: Metres, p: Metres): boolean =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1])

/** Whether two segments have a point in common. */
export function segmentsMeet(a: Metres, b: Metres, c: Metres, d: Metres): boolean {
  const [s1, s2, s3, s4] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)]
  if (s1 !== s2 && s3 !== s4) return true
  return (
    (s1 === 0 && between(a, b, c)) ||
    (s2 === 0 && between(a, b, d)) ||
    (s3 === 0 && between(c, d, a)) ||
    (s4 === 0 && between(c, d, b))
  )
}

/** Whether two segments cross in their midst. */
const segmentsCross = (a: Metres, b: Metres, c: Metres, d: Metres): boolean =>
  side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0

/** Whether an edge meets another of its ring that is not its neighbour, folds back upon it, or crosses one of another ring (which may touch). */
export function crossesItself(rings: readonly Corners[]): boolean {
  const edges = rings.flatMap((ring, part) =>
    ring.map((a, i) => ({ a, b: ring[(i + 1) % ring.length]!, part, i, of: ring.length })),
  )
  for (let m = 0; m < edges.length; m++)
    for (let n = m + 1; n < edges.length; n++) {
      const [p, q] = [edges[m]!, edges[n]!]
      const follows = p.part === q.part && q.i === p.i + 1
      const precedes = p.part === q.part && p.i === 0 && q.i === q.of - 1
      if (follows || precedes) {
        const [before, corner, after] = follows ? [p.a, p.b, q.b] : [q.a, q.b, p.b]
        const folds =
          side(before, corner, after) === 0 &&
          (before[0] - corner[0]) * (after[0] - corner[0]) + (before[1] - corner[1]) * (after[1] - corner[1]) > 0
        if (folds) return true
      } else if ((p.part === q.part ? segmentsMeet : segmentsCross)(p.a, p.b, q.a, q.b)) return true
    }
  return false
}

/** Why the shape can't be kept, or null where it can. */
export function problemOf(shape: Shape): ShapeProblem | null {
  const corners = shape.parts.flat()
  if (corners.some(([east, north]) => !(Math.hypot(east, north) <= MOST_M))) return 'too wide a farm'
  if (shape.type === 'Point') return corners.length < 1 ? 'too few corners' : null
  if (shape.type === 'LineString') {
    if (corners.length < 2) return 'too few corners'
    return lineLengthM(shape.parts[0]) < LEAST_M ? 'no length' : null
  }
  if (shape.parts.length === 0 || shape.parts.some((ring) => ring.length < 3)) return 'too few corners'
  if (isArea(shape) && areaM2(shape) < LEAST_M2) return 'no area'
  return crossesItself(shape.parts) ? 'crosses itself' : null
}
