import { type Columns, guessColumns, isHead, unitInHead } from '../../../../geo/notebook/columns.ts'
import type { Ways } from '../../../../geo/notebook/notebook.ts'
import { orderToldBy } from '../../../../geo/notebook/readDay.ts'
import { decimalToldBy } from '../../../../geo/notebook/readQuantity.ts'
import { readUnit } from '../../../../geo/notebook/readUnit.ts'
import type { SplitTable } from '../../../../geo/notebook/splitTable.ts'

/** How a table is read at first: columns by their heads, and what the columns give away of days, decimals and units. */
export function firstWays(table: SplitTable, months: readonly string[]): Ways {
  const heads = table.rows[0]?.cells ?? []
  const hasHead = isHead(heads)
  return waysFor(table, hasHead ? guessColumns(heads) : {}, {
    columns: {},
    hasHead,
    order: null,
    year: null,
    decimal: null,
    unit: null,
    months,
    meant: new Map(),
    several: 'leave',
    absent: 'leave',
    again: 'leave',
  })
}

/** The same ways with other columns: what these give away is taken anew. */
export function waysFor(table: SplitTable, columns: Columns, ways: Ways): Ways {
  const rows = ways.hasHead ? table.rows.slice(1) : table.rows
  const cells = (at: number | undefined) => (at === undefined ? [] : rows.map((row) => row.cells[at] ?? ''))
  const head = ways.hasHead && columns.quantity !== undefined ? (table.rows[0]?.cells[columns.quantity] ?? '') : ''
  const unit = unitInHead(head)
  return {
    ...ways,
    columns,
    order: orderToldBy(cells(columns.day)),
    decimal: decimalToldBy(cells(columns.quantity)),
    unit: unit === null ? null : readUnit(unit, []),
  }
}
