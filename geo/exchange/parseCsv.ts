/** One record of a CSV text and the line (from 1) where it begins. */
export interface CsvLine {
  readonly line: number
  readonly cells: readonly string[]
}

/** A record that breaks the quoting rules, and the first and last line of what is not read for that. */
export interface CsvFlaw {
  readonly line: number
  readonly lastLine: number
  readonly reason: string
}

const QUOTE = 0x22
const CR = 0x0d
const LF = 0x0a

/**
 * Cells of a CSV text by RFC 4180: quoted cells may hold commas, line ends and doubled quotes; spaces belong to the
 * cell. Lines end in CRLF, LF or CR. Empty lines and lines of empty cells only are passed over. `parter`: the one character
 * between cells.
 */
export function parseCsv(text: string, parter = ','): { lines: CsvLine[]; flaws: CsvFlaw[] } {
  const lines: CsvLine[] = []
  const flaws: CsvFlaw[] = []
  const part = parter.charCodeAt(0)
  let at = 0
  let line = 1
  while (at < text.length) {
    const begun = line
    const cells: string[] = []
    let flaw: string | null = null
    for (;;) {
      if (text.charCodeAt(at) === QUOTE) {
        const cell = quotedCell(text, at)
        if (!cell) {
          const lastLine = line + lineEnds(text, at, /[\r\n]$/.test(text) ? text.length - 1 : text.length)
          flaws.push({
            line: begun,
            lastLine,
            reason: `has a quote that is never closed (${quoteLine(text, at, line)})`,
          })
          return { lines, flaws }
        }
        cells.push(cell.value)
        line += lineEnds(text, at, cell.end)
        at = cell.end
        if (at < text.length && !endsCell(text.charCodeAt(at), part)) {
          flaw = `has text behind the closing quote of cell ${cells.length}`
          at = cellEnd(text, at, part)
        }
      } else {
        const end = cellEnd(text, at, part)
        const cell = text.slice(at, end)
        if (cell.includes('"'))
          flaw = `has a quote inside cell ${cells.length + 1}, which is not quoted (quote the cell, double the quote)`
        cells.push(cell)
        at = end
      }
      if (text.charCodeAt(at) !== part) break
      at += 1
    }
    at += text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF ? 2 : 1
    if (flaw !== null) flaws.push({ line: begun, lastLine: line, reason: flaw })
    else if (cells.some((cell) => cell !== '')) lines.push({ line: begun, cells })
    line += 1
  }
  return { lines, flaws }
}

/** The lines of a flaw in words: `line 4`, `lines 4–1712`. */
export function flawLines({ line, lastLine }: CsvFlaw): string {
  return line === lastLine ? `line ${line}` : `lines ${line}–${lastLine}`
}

function quotedCell(text: string, opening: number): { value: string; end: number } | null {
  let value = ''
  let from = opening + 1
  for (;;) {
    const quote = text.indexOf('"', from)
    if (quote < 0) return null
    value += text.slice(from, quote)
    if (text.charCodeAt(quote + 1) !== QUOTE) return { value, end: quote + 1 }
    value += '"'
    from = quote + 2
  }
}

function endsCell(code: number, part: number): boolean {
  return code === part || code === CR || code === LF
}

function cellEnd(text: string, from: number, part: number): number {
  let at = from
  while (at < text.length && !endsCell(text.charCodeAt(at), part)) at++
  return at
}

function lineEnds(text: string, from: number, to: number): number {
  let ends = 0
  for (let i = from; i < to; i++) {
    const code = text.charCodeAt(i)
    if (code === LF || (code === CR && text.charCodeAt(i + 1) !== LF)) ends++
  }
  return ends
}

function quoteLine(text: string, at: number, line: number): string {
  return `opened on line ${line} before ${JSON.stringify(text.slice(at + 1, at + 21))}`
}
