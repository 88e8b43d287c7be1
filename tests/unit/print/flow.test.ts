import { beforeAll, describe, expect, it } from 'vitest'
import type { Mark, TextMark } from '../../../src/print/marks.ts'
import { type Block, heading, type PrintRow } from '../../../src/print/page/blocks.ts'
import { flow } from '../../../src/print/page/flow.ts'
import { listPages } from '../../../src/print/page/listPages.ts'
import { paperOf, roomOn } from '../../../src/print/paper.ts'
import type { Type } from '../../../src/print/type/openFonts.ts'
import { wrap } from '../../../src/print/type/wrap.ts'
import { bundledType } from './type.ts'

let type: Type
beforeAll(() => {
  type = bundledType()
})

const ROOM = roomOn(paperOf('A4', 'portrait'))
const textsOf = (marks: readonly Mark[]) => marks.filter((mark): mark is TextMark => mark.draw === 'text')

/** Forty beds of three plantings each, longer than a page. */
const rows: PrintRow[] = Array.from({ length: 40 }, (_, bed): PrintRow[] => [
  { heading: `Bed O${bed + 1}` },
  ...[
    'Tomato, Volovsko srce',
    'Pole bean, Čipčič with a name so long that it must be broken over two lines of the table',
    'Cabbage',
  ].map((name, n): PrintRow => ({ cells: [`${bed + 1}.${n} ${name}`, String(100 * bed + n)] })),
]).flat()
const TABLE: Block = {
  block: 'table',
  table: {
    caption: 'What stands',
    columns: [
      { head: 'variety', number: false },
      { head: 'row m', number: true },
    ],
    rows,
    ticked: false,
  },
}

describe('a list over several pages', () => {
  it('keeps every line whole and on the page, in order, under a head told again', () => {
    const pages = flow([heading('By bed'), TABLE], type, 3.2, ROOM, 1)
    expect(pages.length).toBeGreaterThan(3)
    const told: string[] = []
    pages.forEach((marks, n) => {
      const texts = textsOf(marks)
      for (const { at, sizeMm } of texts) {
        expect(at[1]).toBeLessThanOrEqual(ROOM.yMm + ROOM.highMm)
        expect(at[1] - 0.95 * sizeMm).toBeGreaterThanOrEqual(ROOM.yMm - 0.01)
      }
      expect(texts.filter(({ text }) => text === 'variety')).toHaveLength(1)
      expect(texts.some(({ text }) => text === 'What stands, continued')).toBe(n > 0)
      told.push(...texts.filter(({ text }) => /^\d+$/.test(text)).map(({ text }) => text))
    })
    expect(told).toEqual(rows.flatMap((row) => ('cells' in row ? [row.cells[1]!] : [])))
  })

  it('never leaves a bed’s heading alone at the foot of a page', () => {
    for (const marks of flow([TABLE], type, 3.2, ROOM, 2)) {
      const last = textsOf(marks).reduce((a, b) => (b.at[0] > a.at[0] + 40 || b.at[1] > a.at[1] ? b : a))
      expect(last.text).not.toMatch(/^Bed /)
    }
  })

  it('keeps words within their columns', () => {
    const wide = (ROOM.wideMm - 8) / 2
    for (const marks of flow([TABLE], type, 3.2, ROOM, 2))
      for (const { text, at, sizeMm, face, anchor } of textsOf(marks)) {
        const length = type.widthMm(text, sizeMm, face)
        const [from, to] = anchor === 'end' ? [at[0] - length, at[0]] : [at[0], at[0] + length]
        const column = from < ROOM.xMm + wide ? ROOM.xMm : ROOM.xMm + wide + 8
        expect(from).toBeGreaterThanOrEqual(column - 0.01)
        expect(to).toBeLessThanOrEqual(column + wide + 0.01)
      }
  })

  it('starts a page where one is asked, with the cautions first and a foot on each', () => {
    const titles = {
      farm: 'Farm',
      sheet: 'Sheet 7, Stock',
      day: '1 Nov 2026',
      invented: 'Invented',
      cautions: ['Lift with care.'],
    }
    const blocks: Block[] = [heading('Bed 1'), { block: 'lines', count: 3 }, { block: 'page' }, heading('Bed 2')]
    const pages = listPages(
      { paper: paperOf('A4', 'portrait'), titles, title: 'Lifting list', blocks, black: false },
      type,
    )
    const words = pages.map(({ marks }) => textsOf(marks).map(({ text }) => text))
    expect(words).toHaveLength(2)
    expect(words[0]).toEqual(
      expect.arrayContaining(['Lifting list', 'Lift with care.', 'Bed 1', 'Page 1 of 2', 'Invented']),
    )
    expect(words[1]).toEqual(expect.arrayContaining(['Bed 2', 'Page 2 of 2', 'Invented']))
    expect(words[1]).not.toContain('Bed 1')
  })
})

describe('type', () => {
  it('breaks words at spaces, and a word that is too long where it must be', () => {
    const long = 'Donaudampfschifffahrtsgesellschaft'
    for (const text of ['a few plain words of a sentence', `an ${long} here`]) {
      const lines = wrap(type, text, 'sans', 3, 20)
      for (const line of lines) expect(type.widthMm(line, 3, 'sans')).toBeLessThanOrEqual(20.001)
      expect(lines.join('').replace(/ /g, '')).toBe(text.replace(/ /g, ''))
    }
  })

  it('sets Slovene, Polish, Cyrillic and Greek from the bundled fonts, and tells what they lack', () => {
    for (const text of ['Ljubljana, čšž', 'Łódź', 'Поле', 'Αγρός'])
      for (const run of type.runs(text, 'sans')) expect([text, run.font === null]).toEqual([text, false])
    const run = type.runs('Field 畑', 'sans').at(-1)!
    expect(run.font).toBeNull()
    expect([...type.lacking]).toEqual(['畑'])
  })
})
