import type { Cell } from './table.ts'

/** Rows as CSV by RFC 4180, an unknown value as an empty cell. */
export function csvLines(rows: readonly (readonly Cell[])[]): string {
  const cell = (value: Cell) => {
    const text = value === null || value === undefined ? '' : String(value)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('')
}
