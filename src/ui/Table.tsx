import { signal } from '@preact/signals'
import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'

export interface Column<R> {
  readonly head: string
  readonly unit?: string
  /** Numbers stand at the right and are sorted greatest first. */
  readonly number?: boolean
  readonly cell: (row: R) => ComponentChildren
  /** What the column sorts by; a column without it is not sorted. Null comes last. */
  readonly sort?: (row: R) => string | number | null
}

/** True while tables show every row whatever `few` says: on paper nothing can be asked for more. */
export const wholeTables = signal(false)

interface Props<R> {
  readonly caption: string
  /** True where the caption is told by a heading just above, and is kept for screen readers only. */
  readonly quietCaption?: boolean
  readonly columns: readonly Column<R>[]
  readonly rows: readonly R[]
  readonly rowKey: (row: R) => string
  readonly chosen?: string | null
  /** Opens the row's card; the first cell then is a button. */
  readonly onChoose?: (row: R) => void
  /** The heading that a row stands under; rows keep the order of the headings whatever they are sorted by. */
  readonly group?: (row: R) => string
  /** Rows shown before "Show all". */
  readonly few?: number
}

/** A table of records: sorted by any column, its rows opening their cards. */
export function Table<R>({
  caption,
  quietCaption,
  columns,
  rows,
  rowKey,
  chosen,
  onChoose,
  group,
  few = 80,
}: Props<R>) {
  const [order, setOrder] = useState<{ by: number; down: boolean } | null>(null)
  const [all, setAll] = useState(false)
  const sorted = order ? sortRows(rows, columns[order.by]!, order.down) : rows
  const shown = all || wholeTables.value || sorted.length <= few ? sorted : sorted.slice(0, few)
  const turn = (by: number) => setOrder({ by, down: order?.by === by ? !order.down : columns[by]!.number === true })
  return (
    <>
      <table>
        <caption class={quietCaption ? 'unseen' : ''}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column, i) => (
              <Head key={column.head} column={column} down={order?.by === i ? order.down : null} turn={() => turn(i)} />
            ))}
          </tr>
        </thead>
        {inGroups(shown, group).map(([heading, members]) => (
          <tbody key={heading}>
            {heading !== '' && (
              <tr class="group">
                <th colSpan={columns.length} scope="rowgroup">
                  {heading}
                </th>
              </tr>
            )}
            {members.map((row) => (
              <Row
                key={rowKey(row)}
                row={row}
                columns={columns}
                chosen={chosen === rowKey(row)}
                {...(onChoose && { onChoose })}
              />
            ))}
          </tbody>
        ))}
      </table>
      {shown.length < sorted.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          Show all {sorted.length.toLocaleString()}
        </button>
      )}
    </>
  )
}

interface HeadProps<R> {
  readonly column: Column<R>
  readonly down: boolean | null
  readonly turn: () => void
}

function Head<R>({ column, down, turn }: HeadProps<R>) {
  const words = (
    <>
      {column.head}
      {column.unit && <span class="unit"> {column.unit}</span>}
    </>
  )
  const sorted = down === null ? 'none' : down ? 'descending' : 'ascending'
  return (
    <th scope="col" class={column.number ? 'number' : ''} {...(column.sort && { 'aria-sort': sorted })}>
      {column.sort ? (
        <button type="button" onClick={turn}>
          {words}
          {down !== null && <span aria-hidden="true">{down ? ' ↓' : ' ↑'}</span>}
        </button>
      ) : (
        words
      )}
    </th>
  )
}

interface RowProps<R> {
  readonly row: R
  readonly columns: readonly Column<R>[]
  readonly chosen: boolean
  readonly onChoose?: (row: R) => void
}

function Row<R>({ row, columns, chosen, onChoose }: RowProps<R>) {
  const [first, ...rest] = columns
  return (
    <tr class={chosen ? 'chosen' : ''}>
      <th scope="row" class={first!.number ? 'number' : ''}>
        {onChoose ? (
          <button type="button" class="in-row" aria-pressed={chosen} onClick={() => onChoose(row)}>
            {first!.cell(row)}
          </button>
        ) : (
          first!.cell(row)
        )}
      </th>
      {rest.map((column) => (
        <td key={column.head} class={column.number ? 'number' : ''}>
          {column.cell(row)}
        </td>
      ))}
    </tr>
  )
}

/** Rows by the heading they stand under, headings in the order first met in the list given. */
function inGroups<R>(rows: readonly R[], group: ((row: R) => string) | undefined): [string, R[]][] {
  const found = new Map<string, R[]>()
  for (const row of rows) {
    const heading = group?.(row) ?? ''
    const members = found.get(heading)
    if (members) members.push(row)
    else found.set(heading, [row])
  }
  return [...found]
}

function sortRows<R>(rows: readonly R[], column: Column<R>, down: boolean): readonly R[] {
  const { sort } = column
  if (!sort) return rows
  const natural = new Intl.Collator(undefined, { numeric: true })
  return [...rows].sort((one, other) => {
    const [a, b] = [sort(one), sort(other)]
    if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1
    const less = typeof a === 'number' && typeof b === 'number' ? a - b : natural.compare(String(a), String(b))
    return down ? -less : less
  })
}
