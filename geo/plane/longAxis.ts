import type { Metres } from './lonLat.ts'

/**
 * The long axis of an outline: the unit vector along the longer side of its least (smallest-area) rectangle, turned so
 * that it points east of north–south, from `startM` on for `lengthM`; positions along it are `ux·x + uy·y`.
 */
export interface LongAxis {
  readonly ux: number
  readonly uy: number
  readonly startM: number
  readonly lengthM: number
  /** The rectangle's shorter side. */
  readonly acrossM: number
  /** Middle of the rectangle across the axis, as `−uy·x + ux·y`. */
  readonly middleM: number
}

/**
 * The long axis of corners in the plane, as PostGIS' ST_OrientedEnvelope has it: the least rectangle has a side along
 * an edge of the convex hull. Null where the corners lie on one line.
 */
export function longAxis(corners: readonly Metres[]): LongAxis | null {
  const hull = convexHull(corners)
  let least: LongAxis | null = null
  let leastArea = Number.POSITIVE_INFINITY
  for (let k = 0; k < hull.length; k += 1) {
    const [ax, ay] = hull[k]!
    const [bx, by] = hull[(k + 1) % hull.length]!
    const edge = Math.hypot(bx - ax, by - ay)
    if (edge === 0) continue
    const axis = spanAlong(hull, (bx - ax) / edge, (by - ay) / edge)
    const area = axis.lengthM * axis.acrossM
    if (area > 0 && area < leastArea * (1 - 1e-12)) {
      leastArea = area
      least = axis
    }
  }
  return least
}

function spanAlong(hull: readonly Metres[], ux: number, uy: number): LongAxis {
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
  return s1 - s0 >= t1 - t0 ? eastward(ux, uy, [s0, s1], [t0, t1]) : eastward(-uy, ux, [t0, t1], [-s1, -s0])
}

type Range = readonly [low: number, high: number]

function eastward(ux: number, uy: number, [s0, s1]: Range, [t0, t1]: Range): LongAxis {
  const size = { lengthM: s1 - s0, acrossM: t1 - t0 }
  const turn = ux < -1e-12 || (Math.abs(ux) <= 1e-12 && uy < 0)
  if (turn) return { ux: -ux, uy: -uy, startM: -s1, middleM: -(t0 + t1) / 2, ...size }
  return { ux, uy, startM: s0, middleM: (t0 + t1) / 2, ...size }
}

/** Convex hull, counter-clockwise (Andrew's monotone chain). */
function convexHull(corners: readonly Metres[]): Metres[] {
  const sorted = [...corners].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (ordered: readonly Metres[]): Metres[] => {
    const chain: Metres[] = []
    for (const p of ordered) {
      while (chain.length >= 2 && turnOf(chain[chain.length - 2]!, chain[chain.length - 1]!, p) <= 0) chain.pop()
      chain.push(p)
    }
    chain.pop()
    return chain
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

function turnOf(a: Metres, b: Metres, p: Metres): number {
  return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}
