import type { StockLot, StockMove } from '../../model/stock.ts'
import { liftedTooMany } from '../../stock/diedInGround.ts'
import { type Named, namedBy, plainName } from '../matchName.ts'
import { type DayOrder, readDay } from '../readDay.ts'
import type { SplitTable } from '../splitTable.ts'
import { fromSpreadsheet } from '../spreadsheetCell.ts'
import type { StockColumns, StockTells } from './stockColumns.ts'

/** What of the farm a stock table may name. */
export interface StockNames {
  readonly beds: readonly Named[]
  readonly rows: readonly {
    readonly id: string
    readonly bed: string
    readonly name: string | null
    readonly side: string | null
  }[]
  readonly lots: readonly StockLot[]
  readonly moves: readonly StockMove[]
}

/** How a stock table is read. `on`: the day of moves that tell none. */
export interface StockWays {
  readonly columns: StockColumns
  readonly hasHead: boolean
  readonly order: DayOrder | null
  readonly months: readonly string[]
  readonly on: string
}

export interface StockRead {
  readonly lots: readonly StockLot[]
  readonly moves: readonly StockMove[]
  readonly lines: number
  /** Lines left out, and why; the order of day and month is asked for where `asksOrder`. */
  readonly faults: readonly { readonly line: number; readonly reason: string }[]
  readonly asksOrder: boolean
}

const MOVES: Readonly<Record<StockMove['move'], readonly string[]>> = {
  reserved: ['reserved', 'reserve', 'promised', 'ordered', 'order'],
  sold: ['sold', 'sale', 'sell'],
  lifted: ['lifted', 'lift', 'dug', 'dig'],
  lost: ['lost', 'loss', 'dead', 'died'],
}
const KINDS = ['reserved', 'sold', 'lifted', 'lost'] as const

/**
 * Reads a table of lots (with counts of what became of them, if told) or of moves. What is there already by its id, or
 * told the same, is left out, and so is every line by which more plants would leave a lot than there were.
 */
export function readStock(table: SplitTable, names: StockNames, ways: StockWays, newId: () => string): StockRead {
  const rows = ways.hasHead ? table.rows.slice(1) : table.rows
  const faults: { line: number; reason: string }[] = table.flaws.map(({ line, reason }) => ({ line, reason }))
  const flawed = new Set(faults.map(({ line }) => line))
  const lots: StockLot[] = []
  const moves: StockMove[] = []
  let asksOrder = false
  const isOfMoves = ways.columns.move !== undefined
  for (const { line, cells } of rows) {
    if (cells.every((cell) => cell === '') || flawed.has(line)) continue
    const cell = (tells: StockTells) => {
      const at = ways.columns[tells]
      return at === undefined ? '' : fromSpreadsheet(cells[at] ?? '').trim()
    }
    const told: Told = { cell, names, ways, newId, lots, moves }
    const read = isOfMoves ? moveOf(told) : lotOf(told)
    if ('reason' in read) {
      faults.push({ line, reason: read.reason })
      asksOrder ||= read.asks === 'order'
      continue
    }
    const over = read.moves
      .map((move) => tooMany(move, read.lot, [...names.moves, ...moves, ...read.moves]))
      .find(Boolean)
    if (over) faults.push({ line, reason: over })
    else {
      if (read.isNew) lots.push(read.lot)
      moves.push(...read.moves)
    }
  }
  return { lots, moves, lines: rows.length, faults: faults.sort((a, b) => a.line - b.line), asksOrder }
}

interface Told {
  readonly cell: (tells: StockTells) => string
  readonly names: StockNames
  readonly ways: StockWays
  readonly newId: () => string
  readonly lots: readonly StockLot[]
  readonly moves: readonly StockMove[]
}
type Line =
  | { readonly lot: StockLot; readonly isNew: boolean; readonly moves: readonly StockMove[] }
  | { readonly reason: string; readonly asks?: string }

function lotOf({ cell, names, ways, newId, lots }: Told): Line {
  const id = cell('id')
  if (id !== '' && [...names.lots, ...lots].some((lot) => lot.id === id))
    return { reason: `a lot with the id “${id}” is there already` }
  const kind = cell('kind')
  if (kind === '') return { reason: 'tells no plants' }
  const count = wholeOf(cell('count'))
  if (count === null || count < 1) return { reason: `“${cell('count')}” is no count of plants` }
  const place = placeOf(cell('bed'), cell('row'), names)
  if ('reason' in place) return place
  const year = cell('year') === '' ? null : wholeOf(cell('year'))
  if (cell('year') !== '' && (year === null || year < 1 || year > 9999))
    return { reason: `“${cell('year')}” is no year` }
  const price = cell('price') === '' ? null : priceOf(cell('price'))
  if (cell('price') !== '' && price === null) return { reason: `“${cell('price')}” is no price` }
  const on = dayOf(cell('day'), ways)
  if ('reason' in on) return on
  const lot: StockLot = {
    id: id || newId(),
    kind,
    ...place,
    year,
    count,
    grade: cell('grade') || null,
    price,
    extra: {},
  }
  const same = [...names.lots, ...lots].some(
    (one) => id === '' && one.kind === kind && one.bed === lot.bed && one.row === lot.row && one.year === year,
  )
  if (same) return { reason: 'the same plants of that year stand there already' }
  const moves: StockMove[] = []
  for (const move of KINDS) {
    if (cell(move) === '') continue
    const some = wholeOf(cell(move))
    if (some === null) return { reason: `“${cell(move)}” is no count of plants ${move}` }
    if (some > 0)
      moves.push({
        id: newId(),
        lot: lot.id,
        on: on.day,
        move,
        count: some,
        to: null,
        due: null,
        note: null,
        extra: {},
      })
  }
  return { lot, isNew: true, moves }
}

function moveOf({ cell, names, ways, newId, lots, moves }: Told): Line {
  const id = cell('id')
  if (id !== '' && [...names.moves, ...moves].some((move) => move.id === id))
    return { reason: `a move with the id “${id}” is there already` }
  const lot = lotMeant(cell, [...names.lots, ...lots], names)
  if ('reason' in lot) return lot
  const word = plainName(cell('move'))
  const move = KINDS.find((kind) => MOVES[kind].includes(word))
  if (!move) return { reason: `“${cell('move')}” is none of ${KINDS.join(', ')}` }
  const count = wholeOf(cell('count'))
  if (count === null || count < 1) return { reason: `“${cell('count')}” is no count of plants` }
  const on = dayOf(cell('day'), ways)
  if ('reason' in on) return on
  const due = cell('due') === '' ? null : dayOf(cell('due'), ways)
  if (due !== null && 'reason' in due) return due
  const told = { lot: lot.id, on: on.day, move, count, to: cell('to') || null, due: due?.day ?? null }
  return { lot, isNew: false, moves: [{ id: id || newId(), ...told, note: cell('note') || null, extra: {} }] }
}

/** The lot that a line names: by its id, or by its plants, with bed and year where several have them. */
function lotMeant(
  cell: (tells: StockTells) => string,
  lots: readonly StockLot[],
  names: StockNames,
): StockLot | { readonly reason: string } {
  const id = cell('lot')
  const byId = lots.find((lot) => lot.id === id)
  if (byId) return byId
  const kind = cell('kind') || id
  if (kind === '') return { reason: 'tells no lot' }
  const bed = cell('bed') === '' ? null : namedBy(cell('bed'), names.beds)
  if (cell('bed') !== '' && !bed) return { reason: `no bed is called “${cell('bed')}”` }
  const rowBed = new Map(names.rows.map((row) => [row.id, row.bed]))
  const fitting = lots.filter(
    (lot) =>
      plainName(lot.kind) === plainName(kind) &&
      (bed === null || (lot.bed ?? rowBed.get(lot.row ?? '')) === bed.id) &&
      (cell('year') === '' || String(lot.year) === cell('year')),
  )
  if (fitting.length === 1) return fitting[0]!
  return {
    reason:
      fitting.length === 0
        ? `no lot is called “${kind}”`
        : `${fitting.length} lots of “${kind}” may be meant: tell the lot, the bed or the year`,
  }
}

function placeOf(
  bedTold: string,
  rowTold: string,
  names: StockNames,
): { readonly bed: string | null; readonly row: string | null } | { readonly reason: string } {
  const bed = bedTold === '' ? null : namedBy(bedTold, names.beds)
  if (bedTold !== '' && !bed) return { reason: `no bed is called “${bedTold}”` }
  if (rowTold === '') return bed ? { bed: bed.id, row: null } : { reason: 'tells no bed' }
  const wanted = plainName(rowTold)
  const row = names.rows.filter(
    (one) =>
      (bed === null ? one.id === rowTold : one.bed === bed.id) &&
      [one.id, one.name ?? '', one.side ?? ''].some((name) => name !== '' && plainName(name) === wanted),
  )
  if (row.length !== 1)
    return { reason: `${row.length === 0 ? 'no row' : 'more than one row'} of that bed is called “${rowTold}”` }
  return { bed: row[0]!.bed, row: row[0]!.id }
}

function dayOf(told: string, { order, months, on }: StockWays) {
  return told === '' ? { day: on } : readDay(told, { order, year: Number(on.slice(0, 4)), months })
}

/** A whole number, thousands parted by spaces, points or commas or not at all. */
function wholeOf(told: string): number | null {
  if (!/^\d+$|^\d{1,3}([ .,'’\u00a0]\d{3})+$/.test(told)) return null
  const value = Number(told.replace(/\D/g, ''))
  return value <= 2_000_000_000 ? value : null
}

/** A price with a point or a comma before its decimals, and a currency about it or not. */
function priceOf(told: string): number | null {
  const number = /^[^\d]*(\d+(?:[.,]\d{1,4})?)[^\d]*$/.exec(told)?.[1]
  return number === undefined ? null : Number(number.replace(',', '.'))
}

/** Why a move can't be: more plants would leave the lot than it holds; null where it can. */
function tooMany(
  { lot: id, move, count }: StockMove,
  { count: raised, kind }: StockLot,
  all: readonly StockMove[],
): string | null {
  const own = all.filter(({ lot }) => lot === id)
  const sum = (...of: readonly StockMove['move'][]) =>
    own.reduce((total, one) => (of.includes(one.move) ? total + one.count : total), 0)
  if (move === 'reserved') return count > raised ? `reserves ${count} of ${kind}, which holds ${raised}` : null
  if (sum('sold', 'lost') > raised)
    return `brings the plants of ${kind} sold and lost to ${sum('sold', 'lost')}, of ${raised}`
  if (sum('lifted') > raised) return `brings the plants of ${kind} lifted to ${sum('lifted')}, of ${raised}`
  const over = liftedTooMany(raised, own)
  return over ? `has ${over.more} more plants of ${kind} lifted on ${over.on} than stood` : null
}
