/** Points sorted into square buckets, for finding those near a place without looking at all. */
export type PointGrid = {
  readonly bucketM: number
  readonly firstI: number
  readonly firstJ: number
  /** Buckets in a column; bucket (i, j) has the key `(i − firstI)·perColumn + j − firstJ`. */
  readonly perColumn: number
  /** Bucket → the run of places in `order`, `xs` and `ys` that holds its points. */
  readonly runs: ReadonlyMap<number, readonly [number, number]>
  /** Number of each point, and its place, bucket by bucket. */
  readonly order: Int32Array
  readonly xs: Float64Array
  readonly ys: Float64Array
}

/** What a search found: the first `count` entries hold places in the grid's `order` and squared distances in m². */
export type Found = { count: number; readonly slots: number[]; readonly squares: number[] }

/** Buckets are as wide as the distance that will be asked for, so that a search looks at nine of them. */
export function pointGrid(xs: ArrayLike<number>, ys: ArrayLike<number>, bucketM: number): PointGrid {
  const [firstI] = reachOf(xs, bucketM)
  const [firstJ, lastJ] = reachOf(ys, bucketM)
  const perColumn = lastJ - firstJ + 1
  const counts = new Map<number, number>()
  const keys = new Float64Array(xs.length)
  for (let k = 0; k < xs.length; k += 1) {
    const key = (Math.floor(xs[k]! / bucketM) - firstI) * perColumn + Math.floor(ys[k]! / bucketM) - firstJ
    keys[k] = key
    counts.set(key, (counts.get(key) ?? 0) + 1)
  }
  const runs = new Map<number, readonly [number, number]>()
  let at = 0
  for (const [key, count] of counts) {
    runs.set(key, [at, at + count])
    counts.set(key, at)
    at += count
  }
  const order = new Int32Array(xs.length)
  for (let k = 0; k < xs.length; k += 1) {
    const slot = counts.get(keys[k]!)!
    order[slot] = k
    counts.set(keys[k]!, slot + 1)
  }
  const sorted = (values: ArrayLike<number>): Float64Array => Float64Array.from(order, (k) => values[k]!)
  return { bucketM, firstI, firstJ, perColumn, runs, order, xs: sorted(xs), ys: sorted(ys) }
}

/**
 * Finds the points that come after one in the grid's order and lie within its bucket width: asked of every place in
 * turn, each pair is found once. What `found` held before is written over.
 */
export function findAhead(grid: PointGrid, slot: number, found: Found): void {
  const { xs, ys, bucketM, perColumn, runs } = grid
  const { slots, squares } = found
  const x = xs[slot]!
  const y = ys[slot]!
  const i = Math.floor(x / bucketM) - grid.firstI
  const j = Math.floor(y / bucketM) - grid.firstJ
  const limit = bucketM * bucketM * (1 + 1e-12)
  let count = 0
  for (let bi = i - 1; bi <= i + 1; bi += 1) {
    for (let bj = Math.max(j - 1, 0); bj <= Math.min(j + 1, perColumn - 1); bj += 1) {
      const run = runs.get(bi * perColumn + bj)
      if (run === undefined) continue
      for (let s = Math.max(run[0], slot + 1); s < run[1]; s += 1) {
        const dx = xs[s]! - x
        const dy = ys[s]! - y
        const square = dx * dx + dy * dy
        if (square > limit) continue
        slots[count] = s
        squares[count] = square
        count += 1
      }
    }
  }
  found.count = count
}

/** For each point, the others within `bandM` of it, in order of their number. */
export function neighboursWithin(xs: ArrayLike<number>, ys: ArrayLike<number>, bandM: number): number[][] {
  const grid = pointGrid(xs, ys, bandM)
  const found: Found = { count: 0, slots: [], squares: [] }
  const near: number[][] = Array.from({ length: xs.length }, () => [])
  for (let slot = 0; slot < grid.order.length; slot += 1) {
    findAhead(grid, slot, found)
    for (let s = 0; s < found.count; s += 1) {
      const other = grid.order[found.slots[s]!]!
      near[grid.order[slot]!]!.push(other)
      near[other]!.push(grid.order[slot]!)
    }
  }
  for (const list of near) list.sort((a, b) => a - b)
  return near
}

/** First and last bucket along one axis. */
function reachOf(values: ArrayLike<number>, bucketM: number): [number, number] {
  let least = Number.POSITIVE_INFINITY
  let greatest = Number.NEGATIVE_INFINITY
  for (let k = 0; k < values.length; k += 1) {
    if (values[k]! < least) least = values[k]!
    if (values[k]! > greatest) greatest = values[k]!
  }
  return [Math.floor(least / bucketM), Math.floor(greatest / bucketM)]
}
