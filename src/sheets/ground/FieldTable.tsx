import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { landFigure, showCount, showShare, told, wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import type { MeasuredField } from '../state/door.ts'
import { units } from '../state/farm.ts'

/** Fields with their area, how much of it is beds, and their rows. */
export function FieldTable({ fields }: { readonly fields: readonly MeasuredField[] }) {
  const columns: readonly Column<MeasuredField>[] = [
    { head: 'field', cell: (field) => field.name, sort: (field) => field.name },
    {
      head: 'area',
      number: true,
      cell: (field) => told(landFigure(field.area_m2, units.value)),
      sort: (field) => field.area_m2,
    },
    { head: 'beds', number: true, cell: (field) => showCount(field.bed_count), sort: (field) => field.bed_count },
    {
      head: 'under beds',
      number: true,
      cell: (field) => showShare(share(field)),
      sort: share,
    },
    {
      head: 'rows',
      number: true,
      cell: (field) => told(wholeLengthFigure(field.row_m, units.value)),
      sort: (field) => field.row_m,
    },
  ]
  return (
    <section aria-label="Fields">
      <h2>Fields</h2>
      <Table
        caption="Fields"
        quietCaption
        columns={columns}
        rows={fields}
        rowKey={(field) => field.id}
        chosen={chosen.value?.kind === 'fields' ? chosen.value.id : null}
        onChoose={(field) => void choose({ kind: 'fields', id: field.id })}
      />
      <From about="a field">
        Area: the outline’s area in the farm’s plane, holes left out. Under beds: area of its beds on the day, over the
        field’s. Rows: length of every row in its beds.
      </From>
    </section>
  )
}

const share = (field: MeasuredField) => (field.area_m2 > 0 ? field.bed_area_m2 / field.area_m2 : 0)
