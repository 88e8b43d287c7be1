export type Cell = string | number | boolean | null | undefined

/** A table for people: columns lined up, numbers to the right with at most `digits` decimals. */
export function table(columns: readonly string[], rows: readonly (readonly Cell[])[], digits = 2): string {
  const cells = rows.map((row) => row.map((cell) => shown(cell, digits)))
  const right = columns.map(
    (_, i) => rows.length > 0 && rows.every((row) => row[i] == null || typeof row[i] === 'number'),
  )
  const widths = columns.map((name, i) => Math.max(name.length, ...cells.map((row) => row[i]?.length ?? 0)))
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => (right[i] ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join('  ')
      .trimEnd()
  return [line(columns), widths.map((w) => '-'.repeat(w)).join('  '), ...cells.map(line)].join('\n')
}

function shown(cell: Cell, digits: number): string {
  if (cell === null || cell === undefined) return '–'
  if (typeof cell !== 'number') return String(cell).replace(/\s+/g, ' ').slice(0, 60)
  return Number.isInteger(cell) ? String(cell) : cell.toFixed(digits)
}
