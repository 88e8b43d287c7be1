import type { StockLot, StockMove } from '../../../geo/model/stock.ts'

/** A lot on a day: how many are gone, how many are left, and how many of these are promised. */
export interface LotLeft {
  readonly id: string
  readonly kind: string
  readonly bed: string | null
  readonly row: string | null
  readonly grade: string | null
  readonly count: number
  readonly gone: number
  readonly left: number
  readonly reserved: number
}

/** Left = raised − sold − lifted − lost, by the moves up to the day. */
export function lotsLeft(lots: readonly StockLot[], moves: readonly StockMove[], on: string): readonly LotLeft[] {
  const moved = new Map<string, { gone: number; reserved: number }>()
  for (const { lot, on: day, move, count } of moves) {
    if (day > on) continue
    const before = moved.get(lot) ?? { gone: 0, reserved: 0 }
    moved.set(
      lot,
      move === 'reserved' ? { ...before, reserved: before.reserved + count } : { ...before, gone: before.gone + count },
    )
  }
  return lots.map(({ id, kind, bed, row, year, grade, count }) => {
    const { gone, reserved } = moved.get(id) ?? { gone: 0, reserved: 0 }
    return {
      id,
      kind: year === null ? kind : `${kind}, ${year}`,
      bed,
      row,
      grade,
      count,
      gone,
      left: count - gone,
      reserved,
    }
  })
}
