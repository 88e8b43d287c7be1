import { useSignalEffect } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import { Figure } from '../../ui/Figure.tsx'
import { later } from '../../ui/later.tsx'
import { showDay } from '../show/dates.ts'
import { showShare, wholeLengthFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { runsAreWanted } from '../state/freshRuns.ts'
import { measured, runs } from '../state/shown.ts'
import { askSeen, seen, supportsStale } from '../state/supports.ts'
import { on } from '../state/where.ts'
import { HeldTable } from './HeldTable.tsx'
import { RunTable } from './RunTable.tsx'
import { SystemTable } from './SystemTable.tsx'

const SupportsMore = later(async () => (await import('./SupportsMore.tsx')).SupportsMore)

/** The Supports sheet's table: how much climbs without a support, and what stands where. */
export function SupportsPanel() {
  useEffect(() => void runsAreWanted(), [])
  useSignalEffect(() => {
    if (supportsStale.value >= 0) void askSeen(on.value)
  })
  const told = measured.value
  if (!told) return null
  const sum = (of: 'climbing_m' | 'held_m' | 'unheld_m') => told.fields.reduce((total, field) => total + field[of], 0)
  const [climbing, held, unheld] = [sum('climbing_m'), sum('held_m'), sum('unheld_m')]
  const planned = seen.value?.planned.length ?? 0
  if (runs.value.length === 0 && climbing === 0 && planned === 0)
    return (
      <p class="first-steps">
        <strong>No support stands on {showDay(on.value)}, and nothing climbs.</strong> Drag the season strip to a day in
        summer, or take a support system from the catalogue with <em>Systems</em> under the map, and draw a run of it.
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
      <SupportsMore />
    </>
  )
}
