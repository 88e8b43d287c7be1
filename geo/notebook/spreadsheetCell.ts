/** What a spreadsheet may take for a formula, full-width signs too, behind any apostrophes, then blanks or quotes. */
const FORMULA = /'*(?:[^\S\t\r\n]|")*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/.source
const AT_START = new RegExp(`^(?:['\\t\\r\\n]|${FORMULA})`)
const GUARDED_AT_START = new RegExp(`^'(?:['\\t\\r\\n]|${FORMULA})`)
const WITHIN = new RegExp(`([;\\t\\r\\n])(?=${FORMULA})`, 'g')
const GUARDED_WITHIN = new RegExp(`([;\\t\\r\\n])'(?=${FORMULA})`, 'g')

/**
 * A text as a cell of a CSV that is opened in a spreadsheet. One that begins with = + - @, blanks before it or not, or with
 * tab, carriage return or line feed, which a spreadsheet may take for a formula, gets an apostrophe before it, as does one
 * that begins with an apostrophe. Within a text = + - @ get one where they stand behind a semicolon, a tab or a line break:
 * where lists are parted by semicolons, a spreadsheet begins a cell there. `fromSpreadsheet` gives back every text as it
 * was. Source: OWASP, "CSV Injection".
 */
export function forSpreadsheet(text: string): string {
  const within = text.replace(WITHIN, "$1'")
  return AT_START.test(within) ? `'${within}` : within
}

/** The text that a cell made by `forSpreadsheet` was made of. */
export function fromSpreadsheet(cell: string): string {
  const within = GUARDED_AT_START.test(cell) ? cell.slice(1) : cell
  return within.replace(GUARDED_WITHIN, '$1')
}

/** Rows as CSV (RFC 4180, CRLF) for a spreadsheet: texts made safe, numbers as they are, null an empty cell. */
export function spreadsheetCsv(
  heads: readonly string[],
  rows: readonly (readonly (string | number | boolean | null)[])[],
): string {
  const cell = (value: string | number | boolean | null): string => {
    if (value === null) return ''
    if (typeof value === 'boolean') return value ? 'yes' : 'no'
    const text = typeof value === 'number' ? String(value) : forSpreadsheet(value)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return [heads, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')
}
