import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { kindNamed } from '../../../geo/model/kinds.ts'
import { forSpreadsheet, fromSpreadsheet, spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import { tableForPeople } from '../../../geo/notebook/tableForPeople.ts'

describe('a table for a spreadsheet', () => {
  // M: OWASP, "CSV Injection": the signs at a cell's beginning that a spreadsheet may take for a formula.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '\nx', '＝1', '＋1', '－1', '＠A1', ' =1'])(
    'never begins a text as a formula: %j',
    (text) => {
      expect(forSpreadsheet(text)[0]).toBe("'")
      expect(fromSpreadsheet(forSpreadsheet(text))).toBe(text)
    },
  )

  // M: OWASP, "CSV Injection": a separator within a text may begin a cell there.
  it.each([
    ['strings; =broken', "strings;' =broken"],
    ['a;=1+1', "a;'=1+1"],
    ['a;"=1+1"', 'a;\'"=1+1"'],
    ['to do:\r\n- tie up\n- weed', "to do:\r\n'- tie up\n'- weed"],
    ['a\t＝1', "a\t'＝1"],
    ["a;'=1", "a;''=1"],
    ['a; b, -1, c=d', 'a; b, -1, c=d'],
  ])('guards what may begin a cell within a text: %j', (text, guarded) => {
    expect(forSpreadsheet(text)).toBe(guarded)
    expect(fromSpreadsheet(guarded)).toBe(text)
  })

  const signs = ['=', '＝', '-', "'", 'a', '\t', '"', ',', ';', '\n', '\r', ' ', 'č']
  it('gives every text back, apostrophes too (seeded)', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...signs) }), (text) => {
        expect(fromSpreadsheet(forSpreadsheet(text))).toBe(text)
        expect(forSpreadsheet(text)).not.toMatch(/^[=+\-@\t\r\n]/)
      }),
      { seed: 3, numRuns: 2000 },
    )
  })

  // X: read by csv-parse, with quotes as it knows them and as plain signs; blanks and quotes before a cell may be dropped.
  it.each([',', ';', '\t'])('has no cell that is a formula where the file is parted by %j (seeded)', (delimiter) => {
    const cell = fc.string({ unit: fc.constantFrom(...signs) })
    const loosely = { relax_quotes: true, relax_column_count: true, skip_records_with_error: true }
    let cells = 0
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1 }), (rows) => {
        const csv = spreadsheetCsv(['one', 'two', 'three'], rows)
        for (const quote of delimiter === ',' ? ['"'] : ['"', null])
          for (const record_delimiter of ['\r\n', ['\r\n', '\n', '\r']])
            for (const read of (parse(csv, { ...loosely, delimiter, quote, record_delimiter }) as string[][]).flat()) {
              expect(read.replace(/^[\s"]+/, '')).not.toMatch(/^[=+\-@＝＋－＠]/)
              cells += 1
            }
      }),
      { seed: 5, numRuns: 150 },
    )
    expect(cells).toBeGreaterThan(2000)
  })

  // X: read back by csv-parse, which follows RFC 4180.
  it('is read back by csv-parse as it was written, cells of any signs (seeded)', () => {
    const cell = fc.string({ unit: fc.constantFrom('=', "'", 'a', '"', ',', ';', '\n', '\r', 'š', ' ') })
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), (rows) => {
        const read = parse(spreadsheetCsv(['one', 'two'], rows), { record_delimiter: '\r\n' }) as string[][]
        expect(read.slice(1).map((row) => row.map(fromSpreadsheet))).toEqual(rows)
      }),
      { seed: 4, numRuns: 300 },
    )
  })

  it('tells names beside ids, numbers below zero as numbers, and where things lie', () => {
    const picks = [
      {
        id: 'k',
        on: '2026-08-01',
        planting: 'p',
        bed: null,
        lon: -1.5,
        lat: 46,
        quantity: 2,
        unit: 'kg',
        note: '=A1',
        extra: { weather: '@dry' },
      },
    ]
    const [head, row] = parse(
      tableForPeople(kindNamed('picks'), picks, (kind, id) => (kind === 'plantings' && id === 'p' ? 'Tomato' : null)),
      { record_delimiter: '\r\n' },
    ) as [string[], string[]]
    const read = Object.fromEntries(head.map((name, i) => [name, row[i]]))
    expect(read).toMatchObject({ 'planting name': 'Tomato', lon: '-1.5', note: "'=A1", weather: "'@dry", bed: '' })
    const beds = [
      {
        id: 'b',
        name: 'B',
        field: 'f',
        extra: {},
        geom: {
          type: 'Polygon' as const,
          coordinates: [
            [
              [0, 0],
              [1, 0],
              [1, 1],
              [0, 0],
            ],
          ],
        },
      },
    ]
    expect(tableForPeople(kindNamed('beds'), beds, () => null)).toContain('"POLYGON ((0 0, 1 0, 1 1, 0 0))"')
  })
})
