import type { Ring } from './ring.ts'

/**
 * A bed's long axis: the unit vector along the longer side of its least (smallest-area) rectangle, turned so that it
 * points east of north–south, from `startM` on for `lengthM`; positions along it are `ux·x + uy·y`.
 */
export type LongAxis = {
  readonly ux: number
  readonly uy: number
  readonly startM: number
  readonly lengthM: number
  /** Middle of the rectangle across the axis, as `−uy·x + ux·y`. */
  readonly middleM: number
}

/** Long axis of an outline in the plane; the least rectangle has a side along an edge of the convex hull. */
export function longAxis(outline: Ring): LongAxis {
  const hull = convexHull(outline)
  let least: LongAxis | undefined
  let leastArea = Number.POSITIVE_INFINITY
  for (let k = 0; k < hull.length; k += 1) {
    const [ax, ay] = hull[k]!
    const [bx, by] = hull[(k + 1) % hull.length]!
    const edge = Math.hypot(bx - ax, by - ay)
    if (edge === 0) continue
    const along = spanAlong(hull, (bx - ax) / edge, (by - ay) / edge)
    if (along.area < leastArea * (1 - 1e-12)) {
      leastArea = along.area
      least = along.axis
    }
  }
  if (least === undefined)
    throw new Error(`an outline without length has no long axis: ${outline.slice(0, 6).join(' ')}`)
  return least
}

function spanAlong(hull: readonly Point[], ux: number, uy: number): { axis: LongAxis; area: number } {
  let s0 = Number.POSITIVE_INFINITY
  let s1 = Number.NEGATIVE_INFINITY
  let t0 = Number.POSITIVE_INFINITY
  let t1 = Number.NEGATIVE_INFINITY
  for (const [x, y] of hull) {
    const s = ux * x + uy * y
    const t = ux * y - uy * x
    if (s < s0) s0 = s
    if (s > s1) s1 = s
    if (t < t0) t0 = t
    if (t > t1) t1 = t
  }
  const area = (s1 - s0) * (t1 - t0)
  const axis = s1 - s0 >= t1 - t0 ? eastward(ux, uy, s0, s1, (t0 + t1) / 2) : eastward(-uy, ux, t0, t1, -(s0 + s1) / 2)
  return { axis, area }
}

function eastward(ux: number, uy: number, s0: number, s1: number, middleM: number): LongAxis {
  const turn = ux < -1e-12 || (Math.abs(ux) <= 1e-12 && uy < 0)
  if (turn) return { ux: -ux, uy: -uy, startM: -s1, lengthM: s1 - s0, middleM: -middleM }
  return { ux, uy, startM: s0, lengthM: s1 - s0, middleM }
}

type Point = readonly [number, number]

/** Convex hull, counter-clockwise (Andrew's monotone chain). */
function convexHull(ring: Ring): Point[] {
  const points: Point[] = []
  for (let k = 0; k < ring.length; k += 2) points.push([ring[k]!, ring[k + 1]!])
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (ordered: readonly Point[]): Point[] => {
    const chain: Point[] = []
    for (const p of ordered) {
      while (chain.length >= 2 && turnOf(chain[chain.length - 2]!, chain[chain.length - 1]!, p) <= 0) chain.pop()
      chain.push(p)
    }
    chain.pop()
    return chain
  }
  return [...half(points), ...half(points.slice().reverse())]
}

function turnOf(a: Point, b: Point, p: Point): number {
  return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}
