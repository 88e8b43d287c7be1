import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { flawLines, parseCsv } from '../../../geo/exchange/parseCsv.ts'

const cells = (text: string) => parseCsv(text).lines.map((line) => line.cells)

// RFC 4180 §2, rule by rule with its own examples (C: text of the RFC).
describe('CSV by RFC 4180 section 2', () => {
  it('rule 1: each record on its line', () => {
    expect(cells('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ])
  })
  it('rule 2: the last line may have no line end', () => {
    expect(cells('aaa,bbb,ccc\r\nzzz,yyy,xxx')).toEqual(cells('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'))
  })
  it('rule 4: spaces belong to the cell', () => {
    expect(cells(' aaa , bbb,ccc \r\n')).toEqual([[' aaa ', ' bbb', 'ccc ']])
  })
  it('rule 5: cells may be quoted or not', () => {
    expect(cells('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ])
  })
  it('rule 6: line ends, quotes and commas in quoted cells', () => {
    expect(cells('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ])
  })
  it('rule 7: a quote in a quoted cell is doubled', () => {
    expect(cells('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']])
  })
})

describe('CSV lines', () => {
  it('are counted through quoted line ends, CR alone and empty lines', () => {
    const { lines } = parseCsv('a,b\r"x\ny\r\nz",2\n\n,\n3,4')
    expect(lines.map((line) => [line.line, line.cells.length])).toEqual([
      [1, 2],
      [2, 2],
      [7, 2],
    ])
  })
  it('with a flaw are told and the rest is read', () => {
    const { lines, flaws } = parseCsv('a,b\n1,x"y\n2,ok\n"3"z,n\n4,ok\n')
    expect(lines.map((line) => line.line)).toEqual([1, 3, 5])
    expect(flaws.map((flaw) => flaw.line)).toEqual([2, 4])
  })
  it('that a flaw takes away are told to the last', () => {
    const flawed = (text: string) => parseCsv(text).flaws.map(flawLines)
    expect(flawed('a,b\n1,"x\n2,y\n3,z\n')).toEqual(['lines 2–4'])
    expect(flawed('a,b\r\n1,"x\r\n2,y\r\n')).toEqual(['lines 2–3'])
    expect(flawed('a,b\n1,"x\n2,y\n3,z')).toEqual(['lines 2–4'])
    expect(flawed('a,b\n1,"x\ny"z\n2,ok\n3,"x\n')).toEqual(['lines 2–3', 'line 5'])
  })
  it('end with an empty cell where a comma comes last', () => {
    expect(cells('a,b,')).toEqual([['a', 'b', '']])
  })
})

describe('CSV beside another parser', () => {
  // X: csv-parse 7.0 on the same text, seeded.
  const awkward = fc.string({
    unit: fc.constantFrom('a', 'é', '🌱', ' ', ',', '"', '\r', '\n', '\t', ';'),
    maxLength: 6,
  })
  it('reads the same cells as csv-parse', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(awkward, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 6 }),
        (rows) => {
          const quote = (cell: string) => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)
          const text = rows.map((row) => row.map(quote).join(',')).join('\r\n')
          const theirs: string[][] = parse(text, { relax_column_count: true, record_delimiter: '\r\n' })
          const known = theirs.filter((row) => row.some((cell) => cell !== ''))
          const ours = parseCsv(text)
          expect(ours.flaws).toEqual([])
          expect(ours.lines.map((line) => line.cells)).toEqual(known)
        },
      ),
      { seed: 4180, numRuns: 500 },
    )
  })
  it('finds a flaw in any text that csv-parse refuses, and in no other', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('a', 'b', ',', '"', '\n'), maxLength: 12 }), (text) => {
        let refused = false
        try {
          parse(text, { relax_column_count: true, record_delimiter: '\n' })
        } catch {
          refused = true
        }
        expect(parseCsv(text).flaws.length > 0).toBe(refused)
      }),
      { seed: 4181, numRuns: 3000 },
    )
  })
})
