import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { layers, measured } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { type Standing, standingOf } from './standingOf.ts'

/** The Growing sheet's table: what stands on the day. */
export function GrowingPanel() {
  if (!layers.value || !measured.value) return null
  const standing = standingOf(layers.value.stretches.features.map(({ properties }) => properties))
  if (standing.length === 0)
    return (
      <p class="first-steps">
        <strong>Nothing is recorded as standing on {showDay(on.value)}.</strong> Drag the season strip to another day,
        or bring in an archive with <code>plantings.csv</code>: what it holds is shown here by crop.
      </p>
    )
  const unit = units.value === 'us' ? 'ft' : 'm'
  const total = standing.reduce((sum, { lengthM }) => sum + lengthM, 0)
  const crops = new Set(standing.map(({ crop }) => crop)).size
  const columns: readonly Column<Standing>[] = [
    { head: 'crop', cell: (row) => row.crop, sort: (row) => row.crop },
    { head: 'variety', cell: (row) => row.variety, sort: (row) => row.variety },
    { head: 'family', cell: (row) => row.family, sort: (row) => row.family },
    {
      head: 'row',
      unit,
      number: true,
      cell: (row) => wholeLengthFigure(row.lengthM, units.value).value,
      sort: (row) => row.lengthM,
    },
  ]
  return (
    <>
      <Figure
        {...wholeLengthFigure(total, units.value)}
        from="Each planting’s stretch of row, from where to where it was told, or the whole row where it was not; the bed’s long middle where only a bed was told. Counted from the day it is set out until the day it is cleared."
      >
        of row stands planted, with {crops} {crops === 1 ? 'crop' : 'crops'}
      </Figure>
      <section aria-label="Standing">
        <h2>What stands</h2>
        <Table
          caption="Plantings standing on the day"
          quietCaption
          columns={columns}
          rows={standing}
          rowKey={(row) => row.id}
          chosen={chosen.value?.kind === 'plantings' ? chosen.value.id : null}
          onChoose={(row) => void choose({ kind: 'plantings', id: row.id })}
        />
        <From about="a planting">
          Row: the length of its stretch, held and unheld pieces of a climbing one added up.
        </From>
      </section>
    </>
  )
}
