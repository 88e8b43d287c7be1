import { STOCK_TELLS, type StockTells } from '../../../../geo/notebook/stock/stockColumns.ts'

/** What a column may tell, in words. */
const WORDS: Readonly<Record<StockTells, string>> = {
  id: 'its own id',
  kind: 'what plants',
  bed: 'the bed',
  row: 'the row or side',
  year: 'the year',
  count: 'how many',
  grade: 'the grade',
  price: 'the price of one',
  lot: 'the lot’s id or name',
  day: 'the day',
  move: 'reserved, sold, lifted or lost',
  to: 'to whom',
  due: 'the day wanted',
  note: 'a note',
  reserved: 'how many reserved',
  sold: 'how many sold',
  lifted: 'how many lifted',
  lost: 'how many lost',
}

export const STOCK_OPTIONS: readonly { readonly value: StockTells; readonly words: string }[] = STOCK_TELLS.map(
  (value) => ({ value, words: WORDS[value] }),
)
