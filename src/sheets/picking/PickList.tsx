import type { ListedPick } from '../../desk/door.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDayOfYear } from '../show/dates.ts'
import { massFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'

/** The latest picks; a tap opens one's card, where it can be put right or struck out. */
export function PickList({ picks }: { readonly picks: readonly ListedPick[] }) {
  if (picks.length === 0) return null
  const columns: readonly Column<ListedPick>[] = [
    {
      head: 'pick',
      cell: ({ quantity, unit, crop, bed }) => (
        <span>
          {quantity.toLocaleString()} {unit}
          <span class="of-where"> {[crop, bed ?? 'a spot'].filter(Boolean).join(', ')}</span>
        </span>
      ),
      sort: ({ crop, bed }) => `${crop ?? ''} ${bed ?? ''}`,
    },
    { head: 'day', number: true, cell: ({ on }) => showDayOfYear(on), sort: ({ on }) => on },
    { head: 'by', cell: ({ picker }) => picker ?? '', sort: ({ picker }) => picker },
    {
      head: units.value === 'us' ? 'lb' : 'kg',
      number: true,
      cell: ({ kg }) => (kg === null ? 'no weight' : massFigure(kg, units.value).value),
      sort: ({ kg }) => kg,
    },
  ]
  return (
    <section aria-label="Picks">
      <h2>Picks</h2>
      <Table
        caption="The latest picks"
        quietCaption
        columns={columns}
        rows={picks}
        rowKey={({ id }) => id}
        few={10}
        chosen={chosen.value?.kind === 'picks' ? chosen.value.id : null}
        onChoose={({ id }) => void choose({ kind: 'picks', id })}
      />
    </section>
  )
}
