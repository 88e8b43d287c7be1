import { describe, expect, it } from 'vitest'
import { splitTable } from '../../../geo/notebook/splitTable.ts'
import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import { readStock, type StockNames, type StockWays } from '../../../geo/notebook/stock/readStock.ts'
import { guessStockColumns, isStockHead } from '../../../geo/notebook/stock/stockColumns.ts'

const NAMES: StockNames = {
  beds: [
    { id: 'b1', name: 'O17' },
    { id: 'b2', name: 'O18' },
  ],
  rows: [{ id: 'r1', bed: 'b1', name: null, side: 'middle' }],
  lots: [{ id: 'l', kind: 'Hazel', bed: 'b2', row: null, year: 2024, count: 10, grade: null, price: null, extra: {} }],
  moves: [{ id: 'm', lot: 'l', on: '2026-03-01', move: 'lost', count: 4, to: null, due: null, note: null, extra: {} }],
}

function read(text: string, more: Partial<StockWays> = {}) {
  const table = splitTable(text)
  const heads = table.rows[0]!.cells
  const hasHead = isStockHead(heads)
  let made = 0
  return readStock(
    table,
    NAMES,
    { columns: guessStockColumns(heads), hasHead, order: null, months: [], on: '2026-11-24', ...more },
    () => `new ${++made}`,
  )
}

describe('a table of lots', () => {
  it('is read with its places, counts, prices, and what became of them', () => {
    const { lots, moves, faults } = read(
      'Plant;Bed;Row;Year;Count;Price;Sold\nRedcurrant;o17;Middle;2025;1.200;3,60 EUR;40\n',
    )
    expect(faults).toEqual([])
    expect(lots).toMatchObject([
      { id: 'new 1', kind: 'Redcurrant', bed: 'b1', row: 'r1', year: 2025, count: 1200, price: 3.6 },
    ])
    expect(moves).toMatchObject([{ lot: 'new 1', on: '2026-11-24', move: 'sold', count: 40 }])
  })

  it('keeps what is sound and names the fault of each other line', () => {
    const { lots, faults } = read(
      'kind,bed,count,sold\nFig,O99,5,\nFig,,5,\nFig,O17,many,\nFig,O17,5,6\nFig,O17,5,5\n,O17,5,\n',
    )
    expect(lots.map(({ kind, count }) => [kind, count])).toEqual([['Fig', 5]])
    expect(faults).toEqual([
      { line: 2, reason: 'no bed is called “O99”' },
      { line: 3, reason: 'tells no bed' },
      { line: 4, reason: '“many” is no count of plants' },
      { line: 5, reason: 'brings the plants of Fig sold and lost to 6, of 5' },
      { line: 7, reason: 'tells no plants' },
    ])
  })
})

describe('a table of moves', () => {
  it('is read as it was where signs were guarded for a spreadsheet', () => {
    const notes = ['=A1', 'two;-1 was weak\n+ one', "'late"]
    const csv = spreadsheetCsv(
      ['lot', 'on', 'move', 'count', 'note'],
      notes.map((note) => ['l', '2026-11-01', 'sold', 1, note]),
    )
    expect(csv).toContain("two;'-1 was weak\n'+ one")
    expect(read(csv).moves.map(({ note }) => note)).toEqual(notes)
  })

  it('finds its lots by id or by what they are, and holds back what is not there to move', () => {
    const { moves, faults } = read(
      'lot,on,move,count,to\nl,2026-11-01,sold,5,Ana\nhazel,2026-11-02,dug,5,\nl,2026-11-03,sold,2,\nl,2026-11-03,lifted,2,\nfig,2026-11-03,sold,1,\nl,2026-11-03,given,1,\n',
    )
    expect(moves.map(({ lot, move, count, to }) => [lot, move, count, to])).toEqual([
      ['l', 'sold', 5, 'Ana'],
      ['l', 'lifted', 5, null],
    ])
    expect(faults).toEqual([
      { line: 4, reason: 'brings the plants of Hazel sold and lost to 11, of 10' },
      { line: 5, reason: 'has 1 more plants of Hazel lifted on 2026-11-03 than stood' },
      { line: 6, reason: 'no lot is called “fig”' },
      { line: 7, reason: '“given” is none of reserved, sold, lifted, lost' },
    ])
  })

  it('asks which of two numbers is the day, and doubles nothing', () => {
    expect(read('lot,date,move,count\nl,03/04/2026,sold,1\n')).toMatchObject({ moves: [], asksOrder: true })
    expect(read('lot,date,move,count\nl,03/04/2026,sold,1\n', { order: 'day first' }).moves).toMatchObject([
      { on: '2026-04-03' },
    ])
    expect(read('id,lot,on,move,count\nm,l,2026-03-01,lost,4\n')).toMatchObject({
      moves: [],
      faults: [{ line: 2, reason: 'a move with the id “m” is there already' }],
    })
  })
})
