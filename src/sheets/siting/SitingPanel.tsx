import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { measured, runs } from '../state/shown.ts'
import { type Need, needOf } from './needOf.ts'

/** The Siting sheet's table: what is held up for good, and what climbs beside it. */
export function SitingPanel() {
  if (!measured.value) return null
  const needs = needOf(measured.value.fields, runs.value)
  const unit = units.value === 'us' ? 'ft' : 'm'
  const m = (value: number) => wholeLengthFigure(value, units.value).value
  const sum = (of: 'permanentM' | 'climbingM') => needs.reduce((total, need) => total + need[of], 0)
  const columns: readonly Column<Need>[] = [
    { head: 'field', cell: (need) => need.name, sort: (need) => need.name },
    { head: 'climbing', unit, number: true, cell: (need) => m(need.climbingM), sort: (need) => need.climbingM },
    { head: 'left up', unit, number: true, cell: (need) => m(need.permanentM), sort: (need) => need.permanentM },
    { head: 'pulled', unit, number: true, cell: (need) => m(need.seasonM), sort: (need) => need.seasonM },
  ]
  return (
    <>
      <Figure
        {...wholeLengthFigure(sum('permanentM'), units.value)}
        from="Length of the supports that stand on the day and are marked as left up from season to season."
      >
        of support is left up from season to season; {told(sum('climbingM'))} of row climbs on this day
      </Figure>
      <p>Choosing which rows should get a permanent support is not part of this version. What it would start from:</p>
      <section aria-label="By field">
        <h2>By field</h2>
        <Table
          caption="Climbing row and supports by field"
          quietCaption
          columns={columns}
          rows={needs}
          rowKey={(need) => need.id}
          chosen={chosen.value?.kind === 'fields' ? chosen.value.id : null}
          onChoose={(need) => void choose({ kind: 'fields', id: need.id })}
        />
        <From about="by field">
          Climbing: row metres of climbing plantings on the day. Left up and pulled: support metres of permanent and of
          one-season runs that stand on the day, each counted to the field that holds most of it.
        </From>
      </section>
    </>
  )
}

const told = (lengthM: number) => {
  const { value, unit } = wholeLengthFigure(lengthM, units.value)
  return `${value} ${unit}`
}
