import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { whereWords } from '../../../geo/stock/whereWords.ts'
import type { Block } from '../../../src/print/page/blocks.ts'
import { toPrint } from '../../../src/sheets/print/toPrint.ts'
import type { Layers, Measured } from '../../../src/sheets/state/door.ts'
import { layers, measured } from '../../../src/sheets/state/shown.ts'
import { lots, moves } from '../../../src/sheets/state/stock.ts'
import { tellRows } from '../../../src/sheets/state/tellRows.ts'
import { on } from '../../../src/sheets/state/where.ts'
import { liftLines } from '../../../src/sheets/stock/liftLines.ts'
import { printLifting } from '../../../src/sheets/stock/printLifting.ts'

// By hand: the words as a grower would say them.
describe('where something stands', () => {
  it.each([
    ['O17', { name: 'O17 middle', side: 'middle' }, 'O17 middle'],
    ['O17', { name: 'O17.2', side: 'middle' }, 'O17.2'],
    ['O17', { name: null, side: 'south edge' }, 'O17 south edge'],
    ['O17', { name: 'hazels', side: 'south edge' }, 'O17 hazels'],
    ['O1', { name: 'O17 middle', side: null }, 'O1 O17 middle'],
    ['A', { name: 'Apples', side: null }, 'A Apples'],
    ['O17', { name: null, side: null }, 'O17'],
    ['O17', null, 'O17'],
    ['', null, ''],
  ])('in bed %s, row %o is %s', (bed, row, words) => expect(whereWords(bed, row)).toBe(words))

  it('tells rows of a bed apart that have no name, or the same', () => {
    const row = (id: string, bed: string, name: string | null, side: string | null) => ({ id, bed, name, side })
    const told = tellRows([
      row('1', 'a', null, 'north edge'),
      row('2', 'a', null, 'middle'),
      row('3', 'b', null, 'middle'),
      row('4', 'a', null, 'middle'),
      row('5', 'a', null, null),
      row('6', 'b', 'B south', 'south edge'),
    ])
    expect([...told].sort().map(([id, of]) => [id, whereWords('A', of)])).toEqual([
      ['1', 'A north edge'],
      ['2', 'A middle, row 2'],
      ['3', 'A middle'],
      ['4', 'A middle, row 3'],
      ['5', 'A row 4'],
      ['6', 'A B south'],
    ])
  })
})

describe('the lifting list', () => {
  const square = (x: number) => ({
    type: 'Polygon' as const,
    coordinates: [
      [
        [x, 46],
        [x + 1, 46],
        [x + 1, 47],
        [x, 46],
      ],
    ],
  })
  const feature = (properties: object, x: number) => ({ type: 'Feature', properties, geometry: square(x) })
  const collection = (...features: object[]) => ({ type: 'FeatureCollection', features })
  const lot = (id: string, at: Partial<StockLot>, grade: string | null): StockLot => ({
    ...{ id, kind: 'Hazel, layered', bed: null, row: null, year: 2024, count: 40, grade, price: 5, extra: {} },
    ...at,
  })
  const sold = (of: string, count: number): StockMove => ({
    ...{ id: `${of} sold`, lot: of, on: '2026-11-01', move: 'sold', count, to: 'Ana', due: null, note: null },
    extra: {},
  })

  const today = on.value
  afterEach(() => {
    on.value = today
    measured.value = null
    layers.value = null
    lots.value = null
    moves.value = []
    toPrint.value = null
  })
  beforeEach(() => {
    on.value = '2026-11-24'
    const names = { o17: 'O17', s2: 'S2', idle: 'O3' }
    measured.value = {
      fields: [],
      beds: Object.entries(names).map(([id, name]) => ({ id, name })),
    } as unknown as Measured
    layers.value = {
      fields: collection(feature({ id: 'w', name: 'West' }, 0), feature({ id: 'e', name: 'East' }, 10)),
      beds: collection(
        feature({ id: 's2', name: 'S2', field: 'e' }, 10),
        feature({ id: 'o17', name: 'O17', field: 'w' }, 0),
        feature({ id: 'idle', name: 'O3', field: 'w' }, 1),
      ),
      rows: collection(
        feature({ id: 'm', bed: 'o17', name: 'O17 middle', side: 'middle' }, 0),
        feature({ id: 's', bed: 'o17', name: null, side: 'south edge' }, 0),
      ),
    } as unknown as Layers
    lots.value = [
      lot('in middle', { row: 'm' }, '60–80 cm'),
      lot('at south', { row: 's' }, '40–60 cm'),
      lot('whole bed', { bed: 's2' }, null),
      lot('not sold', { bed: 'idle' }, null),
    ]
    moves.value = [sold('whole bed', 3), sold('at south', 5), sold('in middle', 8)]
  })

  it('tells the row of each lot, by bed and row', () => {
    expect(liftLines().map(({ where, lot: { grade }, count }) => [where, grade, count])).toEqual([
      ['O17 middle', '60–80 cm', 8],
      ['O17 south edge', '40–60 cm', 5],
      ['S2', null, 3],
    ])
  })

  it('on paper has the row, the grade, and a map of each field with the beds to lift from', () => {
    printLifting()
    const list = toPrint.value
    if (list === null || list === 'sheet') throw new Error('no list is printed')
    const maps: unknown[] = []
    const blocks = list.compose({
      map: (places, _, caption, named): Block => {
        maps.push([caption, named, places.length])
        return { block: 'words', text: caption ?? '', soft: true }
      },
    })
    const table = blocks.find((block) => block.block === 'table')
    expect(table?.table.columns.map(({ head }) => head)).toEqual(['where', 'lot', 'for', 'plants'])
    expect(table?.table.rows.flatMap((row) => ('cells' in row ? [row.cells] : []))).toEqual([
      ['O17 middle', 'Hazel, layered, 60–80 cm', 'sold to Ana', '8'],
      ['O17 south edge', 'Hazel, layered, 40–60 cm', 'sold to Ana', '5'],
      ['S2', 'Hazel, layered', 'sold to Ana', '3'],
    ])
    expect(maps).toEqual([
      ['The beds to lift from in West', ['o17'], 4],
      ['The beds to lift from in East', ['s2'], 4],
    ])
  })
})
