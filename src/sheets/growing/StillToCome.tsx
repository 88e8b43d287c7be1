import { type Column, Table } from '../../ui/Table.tsx'
import { showDayOfYear } from '../show/dates.ts'
import { choose, chosen } from '../state/chosen.ts'
import { bedOfPlanting } from '../state/plantings.ts'
import { measured } from '../state/shown.ts'
import type { Coming } from './comingIn.ts'

/** What the season still asks to be set out. */
export function StillToCome({ coming }: { readonly coming: readonly Coming[] }) {
  if (coming.length === 0) return null
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const bedOf = ({ id }: Coming) => names.get(bedOfPlanting.value.get(id) ?? '') ?? ''
  const columns: readonly Column<Coming>[] = [
    { head: 'variety', cell: ({ variety }) => variety, sort: ({ variety }) => variety },
    { head: 'crop', cell: ({ crop }) => crop, sort: ({ crop }) => crop },
    { head: 'bed', cell: bedOf, sort: bedOf },
    { head: 'set out', number: true, cell: ({ setOut }) => showDayOfYear(setOut), sort: ({ setOut }) => setOut },
  ]
  return (
    <section aria-label="Still to be set out">
      <h2>Still to be set out</h2>
      <Table
        caption="What is still to be set out this season"
        quietCaption
        columns={columns}
        rows={coming}
        rowKey={({ id }) => id}
        chosen={chosen.value?.kind === 'plantings' ? chosen.value.id : null}
        onChoose={({ id }) => void choose({ kind: 'plantings', id })}
        few={30}
      />
    </section>
  )
}
