import type { StockMove } from '../model/stock.ts'

type Move = Pick<StockMove, 'on' | 'move' | 'count'>

/**
 * How many plants died in the ground, at the least: a loss counts to plants lifted before it (or on its day) as long as
 * there are any. The database holds the same by migration 0014.
 */
export function diedInGround(moves: readonly Move[]): number {
  return byDay(moves).at(-1)?.died ?? 0
}

/** The first day on which more plants would have been lifted than stood, and how many more; null where there is none. */
export function liftedTooMany(
  raised: number,
  moves: readonly Move[],
): { readonly on: string; readonly more: number; readonly died: number } | null {
  for (const { on, lifted, died } of byDay(moves))
    if (lifted + died > raised) return { on, more: lifted + died - raised, died }
  return null
}

/** Lifted and died in the ground up to the end of each day on which something was lifted or lost. */
function byDay(moves: readonly Move[]): { readonly on: string; readonly lifted: number; readonly died: number }[] {
  const days = new Map<string, { lifted: number; lost: number }>()
  for (const { on, move, count } of moves) {
    if (move !== 'lifted' && move !== 'lost') continue
    const day = days.get(on) ?? { lifted: 0, lost: 0 }
    day[move] += count
    days.set(on, day)
  }
  let [inStore, lifted, died] = [0, 0, 0]
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([on, day]) => {
      lifted += day.lifted
      inStore += day.lifted
      const fromStore = Math.min(inStore, day.lost)
      inStore -= fromStore
      died += day.lost - fromStore
      return { on, lifted, died }
    })
}
