import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { today } from '../state/where.ts'
import type { Standing } from './standingOf.ts'

/** What stands on the day, bed by bed. */
export function StandingByBed({ standing }: { readonly standing: readonly Standing[] }) {
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const bedOf = ({ bed }: Standing) => (bed === null ? '' : (names.get(bed) ?? ''))
  const natural = new Intl.Collator(undefined, { numeric: true })
  const rows = [...standing].sort((a, b) => natural.compare(bedOf(a), bedOf(b)))
  const columns: readonly Column<Standing>[] = [
    {
      head: 'variety',
      cell: ({ variety, setOut }) =>
        setOut > today.value ? (
          <>
            {variety} <span class="planned">planned</span>
          </>
        ) : (
          variety
        ),
      sort: ({ variety }) => variety,
    },
    { head: 'crop', cell: ({ crop }) => crop, sort: ({ crop }) => crop },
    {
      head: 'row',
      unit: units.value === 'us' ? 'ft' : 'm',
      number: true,
      cell: ({ lengthM }) => wholeLengthFigure(lengthM, units.value).value,
      sort: ({ lengthM }) => lengthM,
    },
  ]
  return (
    <section aria-label="By bed">
      <h2>By bed</h2>
      <Table
        caption="What stands on the day, by bed"
        quietCaption
        columns={columns}
        rows={rows}
        rowKey={({ id }) => id}
        group={bedOf}
        chosen={chosen.value?.kind === 'plantings' ? chosen.value.id : null}
        onChoose={({ id }) => void choose({ kind: 'plantings', id })}
      />
      <From about="a planting">Row: the length of its stretch, held and unheld pieces of a climbing one added up.</From>
    </section>
  )
}
