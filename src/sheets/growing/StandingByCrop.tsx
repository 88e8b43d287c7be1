import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showCount, wholeLengthFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { byCrop, type CropStanding, type Standing } from './standingOf.ts'

/** Row metres of each crop that stands on the day. */
export function StandingByCrop({ standing }: { readonly standing: readonly Standing[] }) {
  const columns: readonly Column<CropStanding>[] = [
    { head: 'crop', cell: ({ crop }) => crop, sort: ({ crop }) => crop },
    { head: 'family', cell: ({ family }) => family, sort: ({ family }) => family },
    {
      head: 'plantings',
      number: true,
      cell: ({ plantings }) => showCount(plantings),
      sort: ({ plantings }) => plantings,
    },
    {
      head: 'row',
      unit: units.value === 'us' ? 'ft' : 'm',
      number: true,
      cell: ({ lengthM }) => wholeLengthFigure(lengthM, units.value).value,
      sort: ({ lengthM }) => lengthM,
    },
  ]
  return (
    <section aria-label="By crop">
      <h2>By crop</h2>
      <Table
        caption="What stands on the day, by crop"
        quietCaption
        columns={columns}
        rows={byCrop(standing)}
        rowKey={({ crop }) => crop}
      />
      <From about="a crop">The stretches of its plantings on the day, added up.</From>
    </section>
  )
}
