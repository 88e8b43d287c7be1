import { describe, expect, it } from 'vitest'
import { guessColumns, isHead, unitInHead } from '../../../geo/notebook/columns.ts'
import { changesBetween, namedBy, suggestionsFor } from '../../../geo/notebook/matchName.ts'
import { type FarmNames, meantKey, type Ways } from '../../../geo/notebook/notebook.ts'
import { orderToldBy, readDay } from '../../../geo/notebook/readDay.ts'
import { readNotebook } from '../../../geo/notebook/readNotebook.ts'
import { decimalToldBy, readQuantity } from '../../../geo/notebook/readQuantity.ts'
import { readUnit } from '../../../geo/notebook/readUnit.ts'
import { splitTable } from '../../../geo/notebook/splitTable.ts'
import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import { firstWays, waysFor } from '../../../src/sheets/picking/notebook/firstWays.ts'
import { notebookEdits } from '../../../src/sheets/picking/notebook/notebookEdits.ts'

const MONTHS = [
  'januar',
  'februar',
  'marec',
  'april',
  'maj',
  'junij',
  'julij',
  'avgust',
  'september',
  'oktober',
  'november',
  'december',
]

describe('days', () => {
  const day = (text: string, more: object = {}) => {
    const read = readDay(text, { order: null, year: null, months: MONTHS, ...more })
    return 'day' in read ? read.day : (read.asks ?? 'no day')
  }
  it.each([
    ['2024-08-03', '2024-08-03'],
    ['2024/8/3', '2024-08-03'],
    ['20240803', '2024-08-03'],
    ['2024-08-03T07:30:00Z', '2024-08-03'],
    ['2024-08-03 07:30', '2024-08-03'],
    ['25.8.2024', '2024-08-25'],
    ['25. 8. 2024', '2024-08-25'],
    ['8/25/24', '2024-08-25'],
    ['8/8/24', '2024-08-08'],
    ['3 Aug 2024', '2024-08-03'],
    ['Aug 3, 2024', '2024-08-03'],
    ['Saturday, August 3rd, 2024', '2024-08-03'],
    ['3. avg. 2024', '2024-08-03'],
    ['3-Aug-24', '2024-08-03'],
    ['29.2.2024', '2024-02-29'],
  ])('%s is %s whatever the order', (text, told) => expect(day(text)).toBe(told))
  it.each([
    ['03/04/2024', 'order'],
    ['3.4.24', 'order'],
    ['25/8', 'year'],
    ['3 Aug', 'year'],
    ['29.2.2023', 'no day'],
    ['31/31/2024', 'no day'],
    ['rubbish', 'no day'],
    ['13/8/4', 'no day'],
    ['2024', 'no day'],
    ['2024-13-01', 'no day'],
  ])('%s can’t be read by itself: %s', (text, why) => expect(day(text)).toBe(why))
  it('are read in the order and year that are told', () => {
    expect(day('03/04/2024', { order: 'day first' })).toBe('2024-04-03')
    expect(day('03/04/2024', { order: 'month first' })).toBe('2024-03-04')
    expect(day('3 Aug', { year: 2019 })).toBe('2019-08-03')
  })
  it('give their order away where one of them can only be read one way', () => {
    expect(orderToldBy(['03/04/2024', '13/04/2024'])).toBe('day first')
    expect(orderToldBy(['03/04/2024', '04/13/2024'])).toBe('month first')
    expect(orderToldBy(['03/04/2024', '2024-13-04'])).toBeNull()
    expect(orderToldBy(['13/04/2024', '04/13/2024'])).toBeNull()
  })
})

describe('quantities', () => {
  const quantity = (text: string, decimal: '.' | ',' | null = null) => {
    const read = readQuantity(text, decimal)
    return 'quantity' in read ? [read.quantity, read.words] : (read.asks ?? 'none')
  }
  it.each([
    ['3', [3, '']],
    ['2.5', [2.5, '']],
    ['2,5 kg', [2.5, 'kg']],
    ['3 crates', [3, 'crates']],
    ['2.5kg', [2.5, 'kg']],
    ['1½', [1.5, '']],
    ['½ bushel', [0.5, 'bushel']],
    ['1 1/2 bu', [1.5, 'bu']],
    ['3/4', [0.75, '']],
    ['1.234,5', [1234.5, '']],
    ['1,234.5', [1234.5, '']],
    ['0,125', [0.125, '']],
    ['1’200', [1200, '']],
  ])('%s is %j', (text, told) => expect(quantity(text)).toEqual(told))
  it.each(['x', '', '0', '-3', 'crate', '1/0'])('%j is none', (text) => expect(quantity(text)).toBe('none'))
  it('ask what a sign before three digits is, where nothing tells', () => {
    expect(quantity('1,234')).toBe('decimal')
    expect(quantity('1,234', ',')).toEqual([1.234, ''])
    expect(quantity('1,234', '.')).toEqual([1234, ''])
    expect(decimalToldBy(['1,234', '2,5'])).toBe(',')
    expect(decimalToldBy(['1,234', '2.5'])).toBe('.')
    expect(decimalToldBy(['1,234', '12'])).toBeNull()
  })
})

describe('names', () => {
  const crops = [
    { id: 'c1', name: 'Tomato' },
    { id: 'c2', name: 'Pole bean' },
    { id: 'c3', name: 'Bush bean' },
    { id: 'c4', name: 'Lučka' },
  ]
  it('are known but for case, accents and plurals, and never by half', () => {
    expect(namedBy('tomatoes', crops)?.id).toBe('c1')
    expect(namedBy(' POLE  BEANS ', crops)?.id).toBe('c2')
    expect(namedBy('lucka', crops)?.id).toBe('c4')
    expect(namedBy('beans', crops)).toBeNull()
  })
  it('not known are likest to what they may mean', () => {
    expect(suggestionsFor('tomatto', crops)[0]?.id).toBe('c1')
    expect(suggestionsFor('bean', crops).map(({ id }) => id)).toEqual(expect.arrayContaining(['c2', 'c3']))
    expect(suggestionsFor('quinoa', crops)).toEqual([])
  })
  it('count letters changed, swapped, put in and taken out', () => {
    // X: the examples of Damerau (1964) and Levenshtein (1966) as commonly given; swapped neighbours count once.
    expect(changesBetween('kitten', 'sitting')).toBe(3)
    expect(changesBetween('tomaot', 'tomato')).toBe(1)
    expect(changesBetween('', 'abc')).toBe(3)
  })
  it.each([
    ['kgs', 'kg'],
    ['Pounds', 'lb'],
    ['crates', 'crate'],
    ['Boxes', 'box'],
    ['bu.', 'bushel'],
    ['sack', null],
  ])('of units: %s means %s', (told, unit) => expect(readUnit(told, ['crate', 'box', 'bushel'])).toBe(unit))
})

describe('tables', () => {
  it.each([
    [
      'a,b\n1,"2,5"',
      'comma',
      [
        ['a', 'b'],
        ['1', '2,5'],
      ],
    ],
    [
      'a;b\n1;2,5',
      'semicolon',
      [
        ['a', 'b'],
        ['1', '2,5'],
      ],
    ],
    [
      '\uFEFFa\tb\r\n1\t"x, ""y"""',
      'tab',
      [
        ['a', 'b'],
        ['1', 'x, "y"'],
      ],
    ],
    [
      'a,b\n1,"x;y;\nz"\n',
      'comma',
      [
        ['a', 'b'],
        ['1', 'x;y;\nz'],
      ],
    ],
  ])('%j is parted by a %s', (text, parted, cells) => {
    const table = splitTable(text)
    expect(table.parted).toBe(parted)
    expect(table.rows.map((row) => row.cells)).toEqual(cells)
  })
  it('have columns known by their heads', () => {
    expect(guessColumns(['Date picked', 'Crop', 'Bed', 'Weight (kg)', 'Picked by', 'Remarks'])).toEqual({
      day: 0,
      crop: 1,
      bed: 2,
      quantity: 3,
      picker: 4,
      note: 5,
    })
    expect(guessColumns(['when', 'what', 'where', 'qty', 'unit', 'who', 'to', 'for'])).toMatchObject({
      to: 6,
      use: 7,
      picker: 5,
    })
    expect(isHead(['2024-08-03', 'Tomato', 'O4', '3'])).toBe(false)
    expect(unitInHead('Weight (kg)')).toBe('kg')
    expect(unitInHead('lbs')).toBe('lbs')
    expect(unitInHead('Quantity')).toBeNull()
  })
})

const planting = (id: string, crop: string, bed: string, lengthM: number, more: object = {}) => ({
  id,
  crop,
  variety: `${crop} 1`,
  bed,
  row: null,
  side: null,
  setOut: '2024-05-01',
  cleared: '2024-09-30',
  lengthM,
  ...more,
})
const FARM: FarmNames = {
  crops: [
    { id: 'tomato', name: 'Tomato' },
    { id: 'leek', name: 'Leek' },
  ],
  varieties: [
    { id: 'tomato 1', name: 'River Red', crop: 'tomato' },
    { id: 'tomato 2', name: 'Long Sauce', crop: 'tomato' },
    { id: 'leek 1', name: 'Blue Winter', crop: 'leek' },
  ],
  beds: [
    { id: 'b1', name: 'O1' },
    { id: 'b2', name: 'O2' },
  ],
  plantings: [
    planting('p1', 'tomato', 'b1', 10, { side: 'north edge' }),
    planting('p2', 'tomato', 'b1', 30, { side: 'south edge', variety: 'tomato 2' }),
    planting('p3', 'leek', 'b2', 20, { cleared: null }),
  ],
  containers: [
    { unit: 'crate', kg: 11, crop: 'tomato' },
    { unit: 'bushel', kg: 24.04, crop: 'tomato' },
  ],
  picks: [{ on: '2024-08-09', planting: 'p3', bed: null, quantity: 2, unit: 'kg' }],
}

describe('an old notebook', () => {
  const read = (text: string, more: Partial<Ways> = {}) => {
    const table = splitTable(text)
    return readNotebook(table, FARM, { ...firstWays(table, MONTHS), ...more })
  }
  it('takes off again what was put before signs for a spreadsheet', () => {
    const notes = ['=A1', 'to do:\n- tie up;-2 °C', "'90s seed", 'a;b, -1']
    const heads = ['Date', 'Crop', 'Bed', 'Qty', 'Unit', 'Note']
    const csv = spreadsheetCsv(
      heads,
      notes.map((note, n) => [`2024-08-0${n + 1}`, 'Leek', 'O2', 2, 'kg', note]),
    )
    expect(csv).toContain("'- tie up;'-2 °C")
    const { picks, faults } = read(csv)
    expect(faults).toEqual([])
    expect(picks.map(({ note }) => note)).toEqual(notes)
  })

  const LINES = `Date;Crop;Variety;Bed;Row;Qty;Unit;Who;To
13/08/2024;Tomatoes;River Red;O1;;1,5;crates;Ana;Bor
14/08/2024;Tomato;;O1;;2;crate;Ana;
15/08/2024;tomatto;;O1;;2;crate;Ana;
16/08/2024;Leeks;;O2;;1;bushel;Rok;
17/08/2024;;;O2;;3 1/2;kg;Rok;
9/8/2024;leek;;O2;;2;kg;Rok;
rubbish;Leek;;O2;;1;kg;;
18/08/2024;Leek;;O9;;1;kg;;
19/08/2024;Leek;;O1;;1;kg;;
20/08/2024;Tomato;;O1;North edge;1;kg;;
`

  it('gives the picks that are sound and a fault, by its line, for every other', () => {
    const told = read(LINES)
    expect(
      told.picks.map(({ line, on, planting: of, bed, quantity, unit, kgPerUnit }) => [
        line,
        on,
        of ?? bed,
        quantity,
        unit,
        kgPerUnit,
      ]),
    ).toEqual([
      [2, '2024-08-13', 'p1', 1.5, 'crate', 11],
      [6, '2024-08-17', 'b2', 3.5, 'kg', 1],
      [11, '2024-08-20', 'p1', 1, 'kg', 1],
    ])
    expect(told.faults.map(({ line, reason }) => `${line} ${reason}`)).toEqual([
      '3 2 plantings may be meant on 2024-08-14: tell the bed, the row or the variety',
      '4 the farm knows no crop “tomatto”',
      '5 a bushel of that has no weight yet: add the container first',
      '7 is there already, told the same',
      '8 “rubbish” is not a day',
      '9 the farm knows no bed “O9”',
      '10 nothing of that kind is recorded as standing in that bed on 2024-08-19',
    ])
    expect(told.lines).toBe(10)
    expect(told.unmatched).toMatchObject([
      { of: 'crop', told: 'tomatto', lines: 1, suggestions: [{ id: 'tomato' }] },
      { of: 'bed', told: 'O9', lines: 1 },
    ])
  })

  it('takes names as they were matched, divides by length and counts to the bed where that is wanted', () => {
    const meant = new Map([
      [meantKey('crop', 'tomatto'), 'tomato'],
      [meantKey('bed', 'O9'), 'b2'],
    ])
    const told = read(LINES, { meant, several: 'divide', absent: 'bed', again: 'keep' })
    const of = (line: number) =>
      told.picks.filter((pick) => pick.line === line).map((pick) => [pick.planting ?? pick.bed, pick.quantity])
    expect(of(3)).toEqual([
      ['p1', 0.5],
      ['p2', 1.5],
    ])
    expect(of(9)).toEqual([['p3', 1]])
    expect(of(10)).toEqual([['b1', 1]])
    expect(told.picks.find(({ line }) => line === 10)?.note).toBe('Leek')
    expect(of(7)).toEqual([['p3', 2]])
    expect(told.faults.map(({ line }) => line)).toEqual([5, 8])
  })

  it('asks for the order of day and month where no line gives it away, and reads on when it is told', () => {
    const text = 'date,bed,kg\n03/04/2024,O2,2\n05/06/2024,O2,3\n'
    expect(read(text)).toMatchObject({ asks: ['order'], picks: [] })
    expect(read(text, { order: 'month first' }).picks.map(({ on }) => on)).toEqual(['2024-03-04', '2024-05-06'])
    expect(read(text, { order: 'day first' }).picks.map(({ on, unit }) => [on, unit])).toEqual([
      ['2024-04-03', 'kg'],
      ['2024-06-05', 'kg'],
    ])
  })

  it('asks for a year and a unit where none is told', () => {
    const text = 'day,bed,how many\n3 Aug,O2,2\n'
    expect(read(text).asks).toEqual(['year'])
    expect(read(text, { year: 2024 }).asks).toEqual(['unit'])
    expect(read(text, { year: 2024, unit: 'kg' }).picks).toMatchObject([{ on: '2024-08-03', quantity: 2, unit: 'kg' }])
  })

  it('reads a table without heads once its columns are told', () => {
    const table = splitTable('2024-08-13\tO2\t4 kg\n')
    const first = firstWays(table, MONTHS)
    expect(first.hasHead).toBe(false)
    const told = readNotebook(table, FARM, waysFor(table, { day: 0, bed: 1, quantity: 2 }, first))
    expect(told.picks).toMatchObject([{ line: 1, bed: 'b2', quantity: 4, unit: 'kg' }])
  })

  it('takes spots, and tells a place that is none', () => {
    const told = read(
      'date,lat,lon,qty,unit\n2024-08-13,46.1,15.2,1,kg\n2024-08-13,95,15.2,1,kg\n2024-08-13,46.1,,1,kg\n',
    )
    expect(told.picks).toMatchObject([{ lon: 15.2, lat: 46.1 }])
    expect(told.faults.map(({ line }) => line)).toEqual([3, 4])
  })

  it('tells a quote that is never closed by its line, and takes what is sound before it', () => {
    const told = read('date,bed,kg\n2024-08-13,O2,2\n2024-08-14,"O2,3\n')
    expect(told.picks).toHaveLength(1)
    expect(told.faults).toMatchObject([{ line: 3, reason: expect.stringContaining('never closed') }])
  })

  it('keeps each pick with its weight, and who had it', () => {
    let made = 0
    const edits = notebookEdits(read(LINES).picks, () => `n${++made}`)
    expect(edits.map((edit) => edit.kind)).toEqual(['picks', 'shares', 'picks', 'picks'])
    expect(edits[0]).toMatchObject({
      do: 'add',
      record: { planting: 'p1', quantity: 1.5, unit: 'crate', kg_per_unit: 11, picker: 'Ana' },
    })
    expect(edits[1]).toMatchObject({ record: { pick: 'n1', to: 'Bor', part: 1 } })
  })
})
