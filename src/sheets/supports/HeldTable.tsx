import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import type { MeasuredField } from '../state/door.ts'
import { units } from '../state/farm.ts'

/** Held and unheld row metres by field, beside the support metres that stand there. */
export function HeldTable({ fields }: { readonly fields: readonly MeasuredField[] }) {
  const m = (value: number) => wholeLengthFigure(value, units.value).value
  const unit = units.value === 'us' ? 'ft' : 'm'
  const number = (head: string, of: (field: MeasuredField) => number): Column<MeasuredField> => ({
    head,
    unit,
    number: true,
    cell: (field) => m(of(field)),
    sort: of,
  })
  const columns: readonly Column<MeasuredField>[] = [
    { head: 'field', cell: ({ name }) => name, sort: ({ name }) => name },
    number('supports', standing),
    number('climbing', (field) => field.climbing_m),
    number('held', (field) => field.held_m),
    {
      ...number('unheld', (field) => field.unheld_m),
      cell: ({ unheld_m }) => <span class={unheld_m > 0.5 ? 'amiss' : ''}>{m(unheld_m)}</span>,
    },
  ]
  return (
    <section aria-label="Supports by field">
      <h2>By field</h2>
      <Table
        caption="Supports, and climbing row held and unheld, by field"
        quietCaption
        columns={columns}
        rows={fields}
        rowKey={({ id }) => id}
        chosen={chosen.value?.kind === 'fields' ? chosen.value.id : null}
        onChoose={({ id }) => void choose({ kind: 'fields', id })}
      />
      <From about="by field">
        Supports: length of the runs that stand on the day, all systems together. Climbing: row metres of the plantings
        of climbing crops that stand on the day; held and unheld are always the whole of it.
      </From>
    </section>
  )
}

const standing = ({ support_m }: MeasuredField) => Object.values(support_m).reduce((sum, lengthM) => sum + lengthM, 0)
