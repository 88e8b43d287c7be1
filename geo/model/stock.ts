import { count, day, notNegative, oneOf, optional, ref, text, wholeBetween } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** Nursery plants raised in a bed or row for sale. */
export const stockLots = kind('stock_lots', 'stock_lots.csv', {
  id: text(),
  kind: text(),
  bed: optional(ref('beds')),
  row: optional(ref('rows')),
  year: optional(wholeBetween(1, 9999)),
  count: count(),
  grade: optional(text()),
  price: optional(notNegative()),
})
export type StockLot = RecordOf<typeof stockLots>

/** What became of some plants of a lot on a day; `to` whom they are promised or went, and the day they are wanted (`due`). */
export const stockMoves = kind('stock_moves', 'stock_moves.csv', {
  id: text(),
  lot: ref('stock_lots'),
  on: day(),
  move: oneOf('reserved', 'sold', 'lifted', 'lost'),
  count: count(),
  to: optional(text()),
  due: optional(day()),
  note: optional(text()),
})
export type StockMove = RecordOf<typeof stockMoves>
