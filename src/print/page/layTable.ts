import type { Mark } from '../marks.ts'
import { boxMark, lineMark, moved, textMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { wrap } from '../type/wrap.ts'
import type { PrintRow, PrintTable } from './blocks.ts'
import { INK, RULE, SOFT, WASH } from './ink.ts'

/** A piece of a page that is not broken: its marks from its own upper left corner. */
export interface Piece {
  readonly highMm: number
  readonly marks: readonly Mark[]
  /** Stays on the same page as the piece after it. */
  readonly keepWithNext: boolean
}

/** A table cut into its lines, and its head, which is told again wherever the table goes on. */
export interface LaidTable {
  readonly head: Piece
  readonly again: Piece
  readonly lines: readonly Piece[]
}

const LINE = 1.25
const BASELINE = 0.95
/** Room left and right of a cell, and above and below a line, over the type size. */
const [SIDE, ABOVE] = [0.35, 0.28]
const TICK = 1.15

/** A table laid in a width: columns as wide as what stands in them, words broken over lines where all would be too wide. */
export function layTable(table: PrintTable, type: Type, typeMm: number, wideMm: number): LaidTable {
  const size = typeMm * 0.94
  const tickMm = table.ticked ? (TICK + 2 * SIDE) * size : 0
  const widths = columnWidths(table, type, size, wideMm - tickMm)
  const lefts = widths.map((_, i) => tickMm + widths.slice(0, i).reduce((sum, w) => sum + w, 0))
  const side = SIDE * size
  const gap = (i: number) => gapBefore(table, i, size)

  const cellMarks = (cells: readonly string[], face: 'sans' | 'sansBold', colour: string): Piece => {
    const broken = table.columns.map((_, i) => wrap(type, cells[i] ?? '', face, size, widths[i]! - 2 * side - gap(i)))
    const count = Math.max(...broken.map((lines) => lines.length))
    const marks = broken.flatMap((lines, i) =>
      lines.map((text, n) => {
        const y = (ABOVE + n * LINE + BASELINE) * size
        return table.columns[i]!.number
          ? textMark(text, [lefts[i]! + widths[i]! - side, y], size, face, colour, 'end')
          : textMark(text, [lefts[i]! + side + gap(i), y], size, face, colour)
      }),
    )
    const highMm = (count * LINE + 2 * ABOVE) * size
    return { highMm, marks: [...marks, lineMark([0, highMm], [wideMm, highMm], RULE, 0.12)], keepWithNext: false }
  }

  const heads = cellMarks(
    table.columns.map(({ head }) => head),
    'sans',
    SOFT,
  )
  const strong = lineMark([0, heads.highMm], [wideMm, heads.highMm], INK, 0.3)
  const head: Piece = { ...heads, marks: [...heads.marks, strong], keepWithNext: true }
  const told = (1 + 2 * ABOVE) * size
  const again: Piece = {
    highMm: told + head.highMm,
    keepWithNext: true,
    marks: [
      textMark(`${table.caption}, continued`, [0, BASELINE * size], size, 'serifItalic', SOFT),
      ...moved(head.marks, 0, told),
    ],
  }
  const lines = table.rows.map((row): Piece => {
    if ('heading' in row) return groupPiece(row, size, wideMm)
    const laid = cellMarks(row.cells, 'sans', INK)
    if (!table.ticked) return laid
    const box = { xMm: side, yMm: (laid.highMm - TICK * size) / 2, wideMm: TICK * size, highMm: TICK * size }
    return { ...laid, marks: [boxMark(box, null, INK, 0.25), ...laid.marks] }
  })
  return { head, again, lines }
}

function groupPiece({ heading }: Extract<PrintRow, { heading: string }>, size: number, wideMm: number): Piece {
  const highMm = (LINE + 2 * ABOVE + 0.1) * size
  return {
    highMm,
    keepWithNext: true,
    marks: [
      boxMark({ xMm: 0, yMm: 0, wideMm, highMm }, WASH, null),
      textMark(heading, [SIDE * size, (ABOVE + BASELINE) * size], size * 1.04, 'serif', INK),
      lineMark([0, highMm], [wideMm, highMm], RULE, 0.12),
    ],
  }
}

/** Words that follow a number stand off from it. */
const gapBefore = ({ columns }: PrintTable, i: number, size: number) =>
  !columns[i]!.number && columns[i - 1]?.number ? 1.4 * size : 0

/** Widths that fill `wideMm`: each column's own where they fit, what is over shared out; else words give way, widest first. */
function columnWidths(table: PrintTable, type: Type, size: number, wideMm: number): readonly number[] {
  const { columns, rows } = table
  const side = 2 * SIDE * size
  const natural = columns.map(({ head }, i) => {
    const cells = rows.map((row) => ('cells' in row ? type.widthMm(row.cells[i] ?? '', size, 'sans') : 0))
    return Math.max(type.widthMm(head, size, 'sans'), ...cells) + side + gapBefore(table, i, size) + 0.05
  })
  const sum = natural.reduce((total, width) => total + width, 0)
  const wordy = columns.map(({ number }) => !number)
  const bending = wordy.some(Boolean) ? wordy : columns.map(() => true)
  // What is over is shared out evenly: the eye goes along the rules.
  if (sum <= wideMm) return natural.map((width) => width + (wideMm - sum) / columns.length)
  const fixed = natural.reduce((total, width, i) => total + (bending[i] ? 0 : width), 0)
  const room = Math.max(wideMm - fixed, wideMm * 0.3)
  const squeeze = fixed > wideMm * 0.7 ? (wideMm * 0.7) / fixed : 1
  const least = 6 * size
  let level = room
  const bend = natural.filter((_, i) => bending[i])
  // The level at which the widest columns are cut off so that all fit.
  for (let i = 0; i < 40; i += 1) {
    const used = bend.reduce((total, width) => total + Math.min(width, level), 0)
    if (used <= room + 1e-6) break
    level *= Math.max(0.5, room / used)
  }
  level = Math.max(level, Math.min(least, room / Math.max(1, bend.length)))
  return natural.map((width, i) => (bending[i] ? Math.min(width, level) : width * squeeze))
}
