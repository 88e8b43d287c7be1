/**
 * A text as a cell of a CSV that is opened in a spreadsheet: one that begins with = + - @ tab or carriage return, which
 * a spreadsheet may take for a formula, gets an apostrophe before it, as does one that begins with an apostrophe, so
 * that `fromSpreadsheet` gives back every text as it was. Source: OWASP, "CSV Injection".
 */
export const forSpreadsheet = (text: string): string => (/^['=+\-@\t\r]/.test(text) ? `'${text}` : text)

/** The text that a cell made by `forSpreadsheet` was made of. */
export const fromSpreadsheet = (cell: string): string => (/^'['=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell)

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
