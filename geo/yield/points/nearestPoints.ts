import type { ValuedPoint } from './valuedPoint.ts'

/** Points by square buckets. */
export interface PointBuckets {
  readonly points: readonly ValuedPoint[]
  readonly sideM: number
  readonly buckets: ReadonlyMap<string, readonly number[]>
  readonly reach: readonly [number, number, number, number]
}

/** About so many points come to lie in a bucket. */
const IN_BUCKET = 6

export function pointBuckets(points: readonly ValuedPoint[]): PointBuckets {
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  const bounds = (values: readonly number[]): [number, number] => [
    values.reduce((m, v) => Math.min(m, v), Number.POSITIVE_INFINITY),
    values.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY),
  ]
  const [[x0, x1], [y0, y1]] = [bounds(xs), bounds(ys)]
  const sideM = Math.max(
    1e-6,
    Math.sqrt((Math.max(x1 - x0, 1e-3) * Math.max(y1 - y0, 1e-3) * IN_BUCKET) / points.length),
  )
  const buckets = new Map<string, number[]>()
  points.forEach(({ x, y }, k) => {
    const key = `${Math.floor(x / sideM)} ${Math.floor(y / sideM)}`
    const list = buckets.get(key)
    if (list) list.push(k)
    else buckets.set(key, [k])
  })
  const at = (v: number): number => Math.floor(v / sideM)
  return { points, sideM, buckets, reach: [at(x0), at(y0), at(x1), at(y1)] }
}

/** The `most` points nearest to a place, the nearest first; of two as far the earlier in the list. All, where no more. */
export function nearestPoints(
  { points, sideM, buckets, reach }: PointBuckets,
  x: number,
  y: number,
  most: number,
): number[] {
  if (points.length <= most) return points.map((_, k) => k)
  const [ci, cj] = [Math.floor(x / sideM), Math.floor(y / sideM)]
  const found: { k: number; square: number }[] = []
  const last = Math.max(
    Math.abs(ci - reach[0]),
    Math.abs(ci - reach[2]),
    Math.abs(cj - reach[1]),
    Math.abs(cj - reach[3]),
  )
  for (let ring = 0; ring <= last; ring += 1) {
    for (const [i, j] of ringOf(ci, cj, ring)) {
      for (const k of buckets.get(`${i} ${j}`) ?? []) {
        const point = points[k]!
        found.push({ k, square: (point.x - x) ** 2 + (point.y - y) ** 2 })
      }
    }
    if (found.length < most) continue
    found.sort((a, b) => a.square - b.square || a.k - b.k)
    // Whatever lies in rings beyond is at least so far away.
    if (found[most - 1]!.square <= (ring * sideM) ** 2) break
  }
  found.sort((a, b) => a.square - b.square || a.k - b.k)
  return found.slice(0, most).map(({ k }) => k)
}

function* ringOf(ci: number, cj: number, ring: number): Generator<[number, number]> {
  if (ring === 0) {
    yield [ci, cj]
    return
  }
  for (let d = -ring; d <= ring; d += 1) {
    yield [ci + d, cj - ring]
    yield [ci + d, cj + ring]
  }
  for (let d = -ring + 1; d < ring; d += 1) {
    yield [ci - ring, cj + d]
    yield [ci + ring, cj + d]
  }
}
