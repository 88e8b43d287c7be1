import { difference, union } from 'polyclip-ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import { type Corners, polygonsOf, type Shape, twiceArea } from '../shape.ts'
import { fromClip, shapeOfPolygons, toClip } from './joinAreas.ts'

/** A corner sharper than this is cut off square and not drawn out to its point: half the angle's sine below 1 in 10. */
const SHARPEST = 0.1

const leftOf = (a: Metres, b: Metres): Metres => {
  const size = distanceM(a, b)
  return [-(b[1] - a[1]) / size, (b[0] - a[0]) / size]
}
const shifted = (p: Metres, [nx, ny]: Metres, m: number): Metres => [p[0] + nx * m, p[1] + ny * m]

/** Where two sides, each moved by so much along its normal, meet; null where they run alike, fold, or are too sharp. */
function mitre(p: Metres, m: Metres, n: Metres, offM: number): Metres | null {
  const lean = 1 + m[0] * n[0] + m[1] * n[1]
  // |m + n|² = 2·lean; half the corner's angle has the sine √(lean / 2).
  if (Math.sqrt(Math.max(0, lean) / 2) < SHARPEST) return null
  return [p[0] + ((m[0] + n[0]) / lean) * offM, p[1] + ((m[1] + n[1]) / lean) * offM]
}

/**
 * The line parallel to another, so many metres to its left as it runs (negative: to its right), its bends drawn out to
 * their points. Null where a side would vanish or turn round at that distance.
 */
export function offsetLine(line: Corners, leftM: number): Corners | null {
  const corners = line.filter((p, i) => i === 0 || distanceM(p, line[i - 1]!) > 0)
  if (corners.length < 2) return null
  const normals = corners.slice(1).map((b, i) => leftOf(corners[i]!, b))
  const out: Metres[] = []
  for (const [i, p] of corners.entries()) {
    const [before, after] = [normals[i - 1], normals[i]]
    const at = before && after ? mitre(p, before, after, leftM) : shifted(p, (before ?? after)!, leftM)
    if (!at) return null
    out.push(at)
  }
  const turns = out.slice(1).some((b, i) => {
    const [a, p, q] = [out[i]!, corners[i]!, corners[i + 1]!]
    return (b[0] - a[0]) * (q[0] - p[0]) + (b[1] - a[1]) * (q[1] - p[1]) <= 0
  })
  return turns ? null : out
}

/**
 * An area made larger (or, with metres below zero, smaller) by so many metres on every side, corners drawn out to their
 * points; holes the other way. What is too narrow to be left is gone: the shape may come in pieces, or be none (null).
 */
export function offsetArea(area: Shape, outM: number): Shape | null {
  if (outM === 0) return area
  const polygons = polygonsOf(area)
  const borders = polygons.flatMap((rings) =>
    rings.map((ring, n) => (twiceArea(ring) > 0 === (n === 0) ? ring : [...ring].reverse())),
  )
  const strips = borders.flatMap((ring) => stripsAlong(ring, -outM))
  const whole = toClip(polygons)
  const made =
    outM > 0
      ? union(whole, ...strips.map((strip) => toClip([[strip]])))
      : difference(whole, ...strips.map((strip) => toClip([[strip]])))
  const shape = fromClip(made).filter(([ring]) => ring && Math.abs(twiceArea(ring)) > 1e-6)
  return shape.length === 0 ? null : shapeOfPolygons(shape)
}

/** What lies within so many metres to the left (below zero: right) of a ring's sides, with the points of its corners. */
function stripsAlong(given: Corners, leftM: number): Corners[] {
  const ring = given.filter((p, i) => distanceM(p, given[(i + given.length - 1) % given.length]!) > 0)
  const normals = ring.map((a, i) => leftOf(a, ring[(i + 1) % ring.length]!))
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!
    const [n, next] = [normals[i]!, normals[(i + 1) % ring.length]!]
    const side: Corners = [a, b, shifted(b, n, leftM), shifted(a, n, leftM)]
    const bends = n[0] * next[1] - n[1] * next[0]
    if (bends * leftM >= 0) return [side]
    const point = mitre(b, n, next, leftM)
    const [from, to] = [shifted(b, n, leftM), shifted(b, next, leftM)]
    return [side, point ? [b, from, point, to] : [b, from, to]]
  })
}
