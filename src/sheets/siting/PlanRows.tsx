import { useState } from 'preact/hooks'
import type { DeskFault } from '../../desk/door.ts'
import type { SitedRow, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { on } from '../state/where.ts'
import { BedSites } from './BedSites.tsx'
import { buildRows, nextToBuild } from './buildRows.ts'
import { Climbs } from './Climbs.tsx'
import { LotsToLift } from './LotsToLift.tsx'
import { lookAtRow } from './lookAtRow.ts'
import { OneSeason } from './OneSeason.tsx'
import { printStakes } from './printStakes.ts'
import { bedName, sideWords } from './rowLines.ts'
import { saveRows } from './rowsCsv.ts'

/** The rows of a plan, with what climbs them when, and what is built next; the rows of one season, and stock in the way. */
export function PlanRows({ plan }: { readonly plan: SitingPlan }) {
  const name = (row: SitedRow) => `${bedName(row.bed)}, ${sideWords(row.bed, row.side)}`
  const columns: readonly Column<SitedRow>[] = [
    { head: 'row', cell: name, sort: name },
    {
      head: 'length',
      number: true,
      cell: (row) => told(lengthFigure(row.length_m, units.value)),
      sort: (row) => row.length_m,
    },
    {
      head: 'built',
      number: true,
      cell: (row) => (row.stands ? 'stands' : String(row.built)),
      sort: (row) => row.built,
    },
    { head: 'climbs', cell: (row) => <Climbs years={row.years} /> },
  ]
  return (
    <>
      <section aria-label="Rows of the plan">
        <h2>Row by row</h2>
        {plan.rows.length > 0 && (
          <Table
            caption="Rows that get a permanent support, and what climbs them when"
            quietCaption
            columns={columns}
            rows={plan.rows}
            rowKey={(row) => row.bed}
            chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
            onChoose={(row) => lookAtRow(row.bed)}
          />
        )}
        <p class="hint">Tap a row, or any bed on the map, to see why it was taken or left, and to fix or forbid it.</p>
        <p class="deeds" data-print="no">
          {plan.rows.length > 0 && (
            <button type="button" onClick={() => printStakes(plan)}>
              Staking-out sheet
            </button>
          )}
          <button type="button" onClick={() => saveRows(plan)}>
            Save the rows as CSV
          </button>
        </p>
        <Build plan={plan} />
      </section>
      {chosen.value?.kind === 'beds' && <BedSites bed={chosen.value.id} />}
      <OneSeason plan={plan} />
      <LotsToLift plan={plan} />
    </>
  )
}

/** Puts up at one go what the plan builds in the first year that is not built yet. */
function Build({ plan }: { readonly plan: SitingPlan }) {
  const [fault, setFault] = useState<DeskFault | null>(null)
  const next = nextToBuild(plan)
  if (!next && plan.rows.every(({ stands }) => stands)) return null
  if (!next) return <p>All rows of the plan stand on {showDay(on.value)}: choose the rows again to plan from them.</p>
  const { year, rows } = next
  return (
    <div data-print="no">
      <p>
        <button type="button" onClick={() => void buildRows(rows).then(setFault)}>
          {rows.length === 1 ? `The row of ${year} is` : `The ${showCount(rows.length)} rows of ${year} are`} built: put{' '}
          {rows.length === 1 ? 'it' : 'them'} up on {showDay(on.value)}
        </button>
      </p>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
    </div>
  )
}
