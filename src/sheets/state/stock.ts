import { computed, signal } from '@preact/signals'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { type LotOnDay, lotOnDay } from '../../../geo/stock/lotOnDay.ts'
import { ask } from './door.ts'
import { bedOfRow } from './plantings.ts'
import { measured } from './shown.ts'
import { on } from './where.ts'

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

export const movesByLot = computed<ReadonlyMap<string, readonly StockMove[]>>(() => {
  const found = new Map<string, StockMove[]>()
  for (const move of moves.value) {
    const list = found.get(move.lot)
    if (list) list.push(move)
    else found.set(move.lot, [move])
  }
  return found
})

/** A lot with its counts on the day shown, and the bed that it stands in. */
export interface ShownLot {
  readonly lot: StockLot
  readonly counts: LotOnDay
  readonly bed: string | null
  readonly bedName: string
}

export const shownLots = computed<readonly ShownLot[]>(() => {
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const ofLot = movesByLot.value
  return (lots.value ?? []).map((lot) => {
    const bed = lot.bed ?? (lot.row === null ? undefined : bedOfRow.value.get(lot.row)) ?? null
    const counts = lotOnDay(lot.count, ofLot.get(lot.id) ?? [], on.value)
    return { lot, counts, bed, bedName: names.get(bed ?? '') ?? '' }
  })
})
