import { signal } from '@preact/signals'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { ask } from './door.ts'

/** Nursery lots and their moves; null until the desk has told them. */
export const lots = signal<readonly StockLot[] | null>(null)
export const moves = signal<readonly StockMove[]>([])

export async function askStock(): Promise<void> {
  const [told, moved] = await Promise.all([
    ask('listRecords', { kind: 'stock_lots' }),
    ask('listRecords', { kind: 'stock_moves' }),
  ])
  if (moved.ok) moves.value = moved.value as readonly unknown[] as readonly StockMove[]
  if (told.ok) lots.value = told.value as readonly unknown[] as readonly StockLot[]
}
