import type { LotToLift, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { showCount } from '../show/figures.ts'
import { lotPlace } from './rowLines.ts'

/** Stock that has to be out of the ground before a plan builds or plants in its bed. */
export function LotsToLift({ plan }: { readonly plan: SitingPlan }) {
  if (plan.lift.length === 0) return null
  const columns: readonly Column<LotToLift>[] = [
    { head: 'row', cell: lotPlace, sort: lotPlace },
    { head: 'stock', cell: ({ kind }) => kind, sort: ({ kind }) => kind },
    { head: 'plants', number: true, cell: ({ count }) => showCount(count), sort: ({ count }) => count },
    { head: 'before', number: true, cell: ({ before }) => String(before), sort: ({ before }) => before },
  ]
  return (
    <section aria-label="Stock to lift first">
      <h3>Stock to lift first</h3>
      <Table
        caption="Stock lots that stand in the way of the plan"
        quietCaption
        columns={columns}
        rows={plan.lift}
        rowKey={({ lot }) => lot}
      />
      <p class="hint">As it stands when the plan begins, in beds that get a permanent support or have no row free.</p>
    </section>
  )
}
