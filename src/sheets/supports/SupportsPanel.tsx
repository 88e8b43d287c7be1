import { Figure } from '../../ui/Figure.tsx'
import { showDay } from '../show/dates.ts'
import { showShare, wholeLengthFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { measured, runs } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { HeldTable } from './HeldTable.tsx'
import { RunTable } from './RunTable.tsx'
import { SystemTable } from './SystemTable.tsx'

/** The Supports sheet's table: how much climbs without a support, and what stands where. */
export function SupportsPanel() {
  const told = measured.value
  if (!told) return null
  const sum = (of: 'climbing_m' | 'held_m' | 'unheld_m') => told.fields.reduce((total, field) => total + field[of], 0)
  const [climbing, held, unheld] = [sum('climbing_m'), sum('held_m'), sum('unheld_m')]
  if (runs.value.length === 0 && climbing === 0)
    return (
      <p class="first-steps">
        <strong>No support stands on {showDay(on.value)}, and nothing climbs.</strong> Drag the season strip to a day in
        summer, or draw a run with <em>Support</em> under the map once the farm has a support system.
      </p>
    )
  return (
    <>
      <Figure
        {...wholeLengthFigure(unheld, units.value)}
        amiss={unheld > 0.5}
        from="A climbing planting’s stretch of row is held where a support that stands on the day runs within 0.6 m of it; the rest of it is unheld. Held and unheld together are always the climbing metres."
      >
        {climbing === 0
          ? 'unheld: nothing climbs on this day'
          : `of climbing row without a support, out of ${wholeLengthFigure(climbing, units.value).value}; ${showShare(held / climbing)} is held`}
      </Figure>
      <HeldTable fields={told.fields} />
      <SystemTable fields={told.fields} />
      <RunTable runs={runs.value} />
    </>
  )
}
