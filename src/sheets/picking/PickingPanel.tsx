import { useSignalEffect } from '@preact/signals'
import type { PickWeek } from '../../desk/door.ts'
import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDayOfYear } from '../show/dates.ts'
import { massFigure, showCount } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { askWeeks, weeks } from '../state/weeks.ts'
import { season } from '../state/where.ts'

/** The Picking sheet's table: what was picked in the season, week by week. */
export function PickingPanel() {
  useSignalEffect(() => {
    if (!weeks.value.has(season.value)) void askWeeks(season.value)
  })
  const told = weeks.value.get(season.value)
  if (!told) return null
  const picked = told.filter(({ picks }) => picks > 0)
  if (picked.length === 0)
    return (
      <p class="first-steps">
        <strong>No pick is recorded in the season of {season.value}.</strong> Choose another season at the end of the
        strip, or bring in an archive with <code>picks.csv</code>.
      </p>
    )
  const kg = picked.reduce((sum, week) => sum + week.kg, 0)
  const picks = picked.reduce((sum, week) => sum + week.picks, 0)
  const columns: readonly Column<PickWeek>[] = [
    { head: 'week from', cell: (week) => showDayOfYear(week.from), sort: (week) => week.from },
    { head: 'picks', number: true, cell: (week) => showCount(week.picks), sort: (week) => week.picks },
    {
      head: 'picked',
      unit: units.value === 'us' ? 'lb' : 'kg',
      number: true,
      cell: (week) => massFigure(week.kg, units.value).value,
      sort: (week) => week.kg,
    },
  ]
  return (
    <>
      <Figure
        {...massFigure(kg, units.value)}
        from="Each pick’s quantity times the weight of its container for that crop, as kept with the pick. Weeks are counted from the first day of the season."
      >
        picked in the season of {season.value}, in {showCount(picks)} picks
      </Figure>
      <section aria-label="By week">
        <h2>By week</h2>
        <Table
          caption={`Picked by week in ${season.value}`}
          quietCaption
          columns={columns}
          rows={picked}
          rowKey={(week) => week.from}
        />
        <From about="a week">Every pick told in the week, whatever it was told of: a planting, a bed or a spot.</From>
      </section>
    </>
  )
}
