import { type CsvFlaw, parseCsv } from '../exchange/parseCsv.ts'

/** A table as pasted or read from a file: its rows of trimmed cells with the line each begins on, and flaws of quoting. */
export interface SplitTable {
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[]
  readonly flaws: readonly CsvFlaw[]
  readonly parted: 'comma' | 'semicolon' | 'tab'
}

const PARTS = { comma: ',', semicolon: ';', tab: '\t' } as const

/** A quoted cell: what it holds parts nothing, line breaks among it. */
const QUOTED = /(^|[,;\t\r\n])"(?:[^"]|"")*"/g

/** Splits a table parted by commas, semicolons or tabs: by that which parts the first lines into the most cells alike. */
export function splitTable(text: string): SplitTable {
  const plain = text.replace(/^\uFEFF/, '')
  const head = plain
    .replace(QUOTED, '$1')
    .split(/\r\n?|\n/, 12)
    .filter((line) => line.trim() !== '')
  const parted = (['tab', 'semicolon', 'comma'] as const).reduce((best, name) =>
    evenness(head, PARTS[name]) > evenness(head, PARTS[best]) ? name : best,
  )
  const { lines, flaws } = parseCsv(plain, PARTS[parted])
  return {
    rows: lines.map(({ line, cells }) => ({ line, cells: cells.map((cell) => cell.trim()) })),
    flaws,
    parted,
  }
}

/** How many partings every one of some lines has at the least, and as a tie-break the most common one. */
function evenness(lines: readonly string[], part: string): number {
  const counts = lines.map((line) => line.split(part).length - 1)
  if (counts.length === 0) return 0
  const least = Math.min(...counts)
  return least + counts.filter((count) => count === counts[0]).length / (10 * counts.length)
}
