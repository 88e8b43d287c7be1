import type { Piece } from './pieces.ts'

/** Pieces whose cells lie near enough to each other to share mass, and the box of cells about them. */
export type Cluster = {
  /** Places in the list of pieces. */
  readonly at: readonly number[]
  readonly firstI: number
  readonly firstJ: number
  readonly wide: number
  readonly high: number
}

/**
 * Clusters of pieces: those of one square of `reach` cells or of squares that touch hang together, so that any two that
 * lie within `reach` cells along both axes are in one. Far fields so have boxes of their own, not one over the whole farm.
 */
export function cellClusters(pieces: readonly Piece[], reach: number): Cluster[] {
  const squares = new Map<string, { readonly i: number; readonly j: number; readonly at: number[] }>()
  pieces.forEach((piece, k) => {
    const [i, j] = [Math.floor(piece.i / reach), Math.floor(piece.j / reach)]
    const square = squares.get(`${i} ${j}`)
    if (square) square.at.push(k)
    else squares.set(`${i} ${j}`, { i, j, at: [k] })
  })
  const clusters: Cluster[] = []
  for (const [key, first] of squares) {
    squares.delete(key)
    const reached = [first]
    const at: number[] = []
    for (let square = reached.pop(); square; square = reached.pop()) {
      for (const k of square.at) at.push(k)
      for (let i = square.i - 1; i <= square.i + 1; i += 1) {
        for (let j = square.j - 1; j <= square.j + 1; j += 1) {
          const next = squares.get(`${i} ${j}`)
          if (!next) continue
          squares.delete(`${i} ${j}`)
          reached.push(next)
        }
      }
    }
    clusters.push(boxed(pieces, at))
  }
  return clusters
}

function boxed(pieces: readonly Piece[], at: readonly number[]): Cluster {
  let [i0, j0, i1, j1] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const k of at) {
    const { i, j } = pieces[k]!
    if (i < i0) i0 = i
    if (i > i1) i1 = i
    if (j < j0) j0 = j
    if (j > j1) j1 = j
  }
  return { at, firstI: i0, firstJ: j0, wide: i1 - i0 + 1, high: j1 - j0 + 1 }
}
