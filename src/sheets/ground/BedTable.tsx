import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { areaFigure, lengthFigure, wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import type { MeasuredBed, MeasuredField } from '../state/door.ts'
import { units } from '../state/farm.ts'

interface Props {
  readonly beds: readonly MeasuredBed[]
  readonly fields: readonly MeasuredField[]
}

/** Beds with their length, width, area and rows. */
export function BedTable({ beds, fields }: Props) {
  const fieldName = new Map(fields.map(({ id, name }) => [id, name]))
  const long = units.value === 'us' ? 'ft' : 'm'
  const wide = units.value === 'us' ? 'ft²' : 'm²'
  const columns: readonly Column<MeasuredBed>[] = [
    { head: 'bed', cell: (bed) => bed.name, sort: (bed) => bed.name },
    {
      head: 'long',
      unit: long,
      number: true,
      cell: (bed) => lengthFigure(bed.length_m, units.value).value,
      sort: (bed) => bed.length_m,
    },
    {
      head: 'wide',
      unit: long,
      number: true,
      cell: (bed) => lengthFigure(bed.width_m, units.value).value,
      sort: (bed) => bed.width_m,
    },
    {
      head: 'area',
      unit: wide,
      number: true,
      cell: (bed) => areaFigure(bed.area_m2, units.value).value,
      sort: (bed) => bed.area_m2,
    },
    {
      head: 'rows',
      unit: long,
      number: true,
      cell: (bed) => wholeLengthFigure(bed.row_m, units.value).value,
      sort: (bed) => bed.row_m,
    },
  ]
  if (beds.length === 0)
    return (
      <p class="first-steps">
        No bed yet. Choose <em>Bed</em> under the map: one end, the other end, then the width; or type both exactly.
      </p>
    )
  return (
    <section aria-label="Beds">
      <h2>Beds</h2>
      <Table
        caption="Beds"
        quietCaption
        columns={columns}
        rows={beds}
        rowKey={(bed) => bed.id}
        group={(bed) => fieldName.get(bed.field) ?? ''}
        chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
        onChoose={(bed) => void choose({ kind: 'beds', id: bed.id })}
      />
      <From about="a bed">
        Long: the long side of the least rectangle about the bed. Wide: its area over that length. Rows: the length of
        the rows in it, added up.
      </From>
    </section>
  )
}
