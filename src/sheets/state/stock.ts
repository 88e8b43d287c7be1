import { computed, signal } from '@preact/signals'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { type LotOnDay, lotOnDay } from '../../../geo/stock/lotOnDay.ts'
import { whereWords } from '../../../geo/stock/whereWords.ts'
import { ask } from './door.ts'
import { bedOfRow } from './plantings.ts'
import { layers, measured } from './shown.ts'
import { tellRows } from './tellRows.ts'
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
  /** Bed and row in words. */
  readonly where: string
}

export const shownLots = computed<readonly ShownLot[]>(() => {
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const ofLot = movesByLot.value
  const rows = toldRows.value
  return (lots.value ?? []).map((lot) => {
    const bed = lot.bed ?? (lot.row === null ? undefined : bedOfRow.value.get(lot.row)) ?? null
    const counts = lotOnDay(lot.count, ofLot.get(lot.id) ?? [], on.value)
    const bedName = names.get(bed ?? '') ?? ''
    const row = lot.row === null ? null : (rows.get(lot.row) ?? null)
    return { lot, counts, bed, bedName, where: whereWords(bedName, row) }
  })
})

const toldRows = computed(() => tellRows(layers.value?.rows.features.map(({ properties }) => properties) ?? []))
