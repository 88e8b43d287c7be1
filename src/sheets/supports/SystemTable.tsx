import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { wholeLengthFigure } from '../show/figures.ts'
import type { MeasuredField } from '../state/door.ts'
import { units } from '../state/farm.ts'

/** Metres of one system in one field. */
interface Line {
  readonly field: string
  readonly system: string
  readonly standingM: number
}

/** Support metres standing on the day, by field and system. */
export function SystemTable({ fields }: { readonly fields: readonly MeasuredField[] }) {
  const lines = fields.flatMap(({ name, support_m }) =>
    Object.entries(support_m)
      .filter(([, standingM]) => standingM > 0)
      .sort(([, a], [, b]) => b - a)
      .map(([system, standingM]): Line => ({ field: name, system, standingM })),
  )
  const columns: readonly Column<Line>[] = [
    { head: 'system', cell: ({ system }) => system, sort: ({ system }) => system },
    {
      head: 'standing',
      unit: units.value === 'us' ? 'ft' : 'm',
      number: true,
      cell: ({ standingM }) => wholeLengthFigure(standingM, units.value).value,
      sort: ({ standingM }) => standingM,
    },
  ]
  if (lines.length === 0) return null
  return (
    <section aria-label="Supports by system">
      <h2>By system</h2>
      <Table
        caption="Support metres by field and system"
        quietCaption
        columns={columns}
        rows={lines}
        rowKey={({ field, system }) => `${field} ${system}`}
        group={({ field }) => field}
      />
      <From about="by system">
        Length of the runs that stand on the day. A run counts to the field that holds most of it; one that lies in no
        field is listed among the runs only.
      </From>
    </section>
  )
}
