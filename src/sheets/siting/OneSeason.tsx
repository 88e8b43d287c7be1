import type { SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { chosen } from '../state/chosen.ts'
import { Climbs } from './Climbs.tsx'
import { lookAtRow } from './lookAtRow.ts'
import { bedName } from './rowLines.ts'

type Bed = SitingPlan['one_season'][number]

/** Beds in which a plan puts up a support for a season, with what climbs it when. */
export function OneSeason({ plan }: { readonly plan: SitingPlan }) {
  if (plan.one_season.length === 0) return null
  const columns: readonly Column<Bed>[] = [
    { head: 'bed', cell: ({ bed }) => bedName(bed), sort: ({ bed }) => bedName(bed) },
    { head: 'climbs', cell: ({ years }) => <Climbs years={years} /> },
  ]
  return (
    <section aria-label="Rows of one season">
      <h3>Along supports of one season</h3>
      <Table
        caption="Beds with supports of one season, and what climbs them when"
        quietCaption
        columns={columns}
        rows={plan.one_season}
        rowKey={({ bed }) => bed}
        chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
        onChoose={({ bed }) => lookAtRow(bed)}
      />
      <p class="hint">Put up in spring and pulled in autumn of each of these years.</p>
    </section>
  )
}
