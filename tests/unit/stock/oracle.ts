import type { StockMove } from '../../../geo/model/stock.ts'

export type Move = Pick<StockMove, 'on' | 'move' | 'count' | 'to'>

/** Each plant by itself: where it is, and whether it has been sold. */
interface Plant {
  at: 'ground' | 'store' | 'dead'
}

/** The days of a run, one after the other. */
export const DAYS = Array.from({ length: 24 }, (_, i) => new Date(Date.UTC(2026, 1, 15 + i)).toISOString().slice(0, 10))

/**
 * A lot lived through day by day, plant by plant: on each day plants are dug, then sold, then some die, those in the
 * store first. Tells of each day what is left and what stands; null where on some day a plant would be wanted that is
 * not there. Written without looking at how the counts are reckoned.
 */
export function liveThrough(
  raised: number,
  moves: readonly Move[],
): readonly { on: string; left: number; standing: number }[] | null {
  const plants = Array.from({ length: raised }, (): Plant => ({ at: 'ground' }))
  let sold = 0
  let dead = 0
  const told: { on: string; left: number; standing: number }[] = []
  for (const on of DAYS) {
    const today = moves.filter((move) => move.on === on)
    const each = (kind: Move['move'], run: () => boolean) =>
      today.filter(({ move }) => move === kind).every(({ count }) => Array.from({ length: count }, run).every(Boolean))
    const dug = each('lifted', () => {
      const plant = plants.find(({ at }) => at === 'ground')
      if (plant) plant.at = 'store'
      return plant !== undefined
    })
    const paid = each('sold', () => {
      sold++
      return sold + dead <= raised
    })
    const died = each('lost', () => {
      const plant = plants.find(({ at }) => at === 'store') ?? plants.find(({ at }) => at === 'ground')
      if (plant) plant.at = 'dead'
      dead++
      return plant !== undefined && sold + dead <= raised
    })
    if (!dug || !paid || !died) return null
    told.push({ on, left: raised - sold - dead, standing: plants.filter(({ at }) => at === 'ground').length })
  }
  return told
}
