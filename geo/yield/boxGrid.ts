import type { Bounds } from './ring.ts'

/** Boxes listed under every square bucket that they touch. */
export type BoxGrid = { readonly bucketM: number; readonly buckets: ReadonlyMap<number, readonly number[]> }

/** Lists boxes by bucket; a bucket about as wide as the boxes are long serves best. */
export function boxGrid(boxes: readonly Bounds[], bucketM: number): BoxGrid {
  const buckets = new Map<number, number[]>()
  boxes.forEach((box, k) => {
    eachBucket(box, bucketM, (key) => {
      const listed = buckets.get(key)
      if (listed === undefined) buckets.set(key, [k])
      else listed.push(k)
    })
  })
  return { bucketM, buckets }
}

/** Boxes that share a bucket with the given one, each once, in order; those that don't meet it must still be told. */
export function boxesNear(grid: BoxGrid, box: Bounds): number[] {
  const found = new Set<number>()
  eachBucket(box, grid.bucketM, (key) => {
    for (const k of grid.buckets.get(key) ?? []) found.add(k)
  })
  return [...found].sort((a, b) => a - b)
}

function eachBucket([minX, minY, maxX, maxY]: Bounds, bucketM: number, visit: (key: number) => void): void {
  for (let i = Math.floor(minX / bucketM); i <= Math.floor(maxX / bucketM); i += 1) {
    for (let j = Math.floor(minY / bucketM); j <= Math.floor(maxY / bucketM); j += 1) visit(bucketKey(i, j))
  }
}

/** One number for a bucket; buckets lie within 2²⁵ of the origin either way, far beyond any farm. */
function bucketKey(i: number, j: number): number {
  return (i + 33554432) * 67108864 + (j + 33554432)
}
