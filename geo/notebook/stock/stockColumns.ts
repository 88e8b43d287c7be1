/** What a column of a stock table may tell. A table that tells moves has a column for the move or for the lot. */
export const STOCK_TELLS = [
  'id',
  'kind',
  'bed',
  'row',
  'year',
  'count',
  'grade',
  'price',
  'lot',
  'day',
  'move',
  'to',
  'due',
  'note',
  'reserved',
  'sold',
  'lifted',
  'lost',
] as const
export type StockTells = (typeof STOCK_TELLS)[number]

/** Which column (from 0) tells what. */
export type StockColumns = { readonly [T in StockTells]?: number }

const HEADS: Readonly<Record<StockTells, readonly string[]>> = {
  id: ['id'],
  kind: ['kind', 'plant', 'plants', 'species', 'what', 'item', 'variety', 'lot name'],
  bed: ['bed name', 'bed', 'place', 'where', 'location'],
  row: ['row name', 'row', 'side'],
  year: ['year', 'raised in', 'raised', 'lined out'],
  count: ['count', 'quantity', 'qty', 'number', 'how many', 'raised count', 'amount'],
  grade: ['grade', 'size', 'quality'],
  price: ['price', 'unit price', 'price each', 'each'],
  lot: ['lot', 'lot id'],
  day: ['on', 'day', 'date', 'when'],
  move: ['move', 'what became of it', 'deed', 'transaction', 'type'],
  to: ['to', 'for', 'customer', 'buyer', 'for whom', 'to whom'],
  due: ['due', 'wanted', 'wanted on', 'collect'],
  note: ['note', 'notes', 'remark'],
  reserved: ['reserved'],
  sold: ['sold'],
  lifted: ['lifted', 'dug'],
  lost: ['lost', 'dead', 'died'],
}

const plain = (head: string) =>
  head
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .replace(/[_\-./:]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()

/** Which columns tell what, by their heads, the better word first. No column tells two things. */
export function guessStockColumns(heads: readonly string[]): StockColumns {
  const found: { [T in StockTells]?: number } = {}
  const taken = new Set<number>()
  for (const tells of STOCK_TELLS)
    for (const word of HEADS[tells]) {
      const at = heads.findIndex((head, i) => !taken.has(i) && plain(head) === word)
      if (at < 0) continue
      found[tells] = at
      taken.add(at)
      break
    }
  return found
}

/** True where a first line heads its columns: it names two things or more, and holds no number by itself. */
export const isStockHead = (cells: readonly string[]): boolean =>
  Object.keys(guessStockColumns(cells)).length >= 2 && !cells.some((cell) => /^[\d.,/-]+$/.test(cell))
