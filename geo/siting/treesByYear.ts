import { spreadOn } from '../measure/canopy.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { readRecords } from '../store/row.ts'
import { lengthWithin } from './lengthWithin.ts'

/** A tree year by year: its radii in metres, 0 while it is not there; its reach counts only where it is a juglone source. */
export interface TreeByYear {
  readonly at: Metres
  readonly canopyM: readonly number[]
  readonly reachM: readonly number[]
}

/** Every tree on some days, one a year. */
export async function treesByYear(db: Database, days: readonly string[]): Promise<TreeByYear[]> {
  const trees = (await readRecords(db, treeKind)) as unknown as Tree[]
  const places = await db.rows<{ id: string; x: number; y: number }>(
    'select id, st_x(plan) as x, st_y(plan) as y from trees',
  )
  const at = new Map(places.map(({ id, x, y }): [string, Metres] => [id, [x, y]]))
  return trees.map((tree) => {
    const spreads = days.map((on) => (isThere(tree, on) ? spreadOn(tree, on) : null))
    const source = isJugloneSource(tree)
    return {
      at: at.get(tree.id)!,
      canopyM: spreads.map((spread) => spread?.canopyM ?? 0),
      reachM: spreads.map((spread) => (source ? (spread?.reachM ?? 0) : 0)),
    }
  })
}

/** By year: the most metres of a line that lie within one tree's radius. */
export function metresWithin(
  line: readonly [Metres, Metres],
  trees: readonly TreeByYear[],
  radius: 'canopyM' | 'reachM',
  years: number,
): number[] {
  return Array.from({ length: years }, (_, t) =>
    Math.max(0, ...trees.map((tree) => lengthWithin(line, tree.at, tree[radius][t]!))),
  )
}

const isThere = (tree: Tree, on: string) => (tree.planted ?? on) <= on && (tree.removed === null || tree.removed > on)
