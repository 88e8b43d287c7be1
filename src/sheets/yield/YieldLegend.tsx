import { rampStops } from '../../map/theme/ramps.ts'
import { Ramp } from '../../ui/Ramp.tsx'
import { densityFigure, showNumber, showShare } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { yielded, yieldShown } from '../state/yields.ts'
import { rampOf } from './onMap.ts'

const TITLE = { index: 'Yield index', density: 'Yield density', hot: 'Hot and cold stretches' } as const

/** The Yield sheet's legend: the ramp with its values, and what the dashes mean. */
export function YieldLegend() {
  const view = yielded.value
  if (!view) return null
  const shown = yieldShown.value
  const ramp = rampOf(view, shown)
  return (
    <section class="legend" aria-label="Legend">
      <h2>
        {TITLE[shown]}, {view.season}
      </h2>
      <Ramp stops={rampStops(ramp)} />
      <p class="ramp-words">
        {ramp.of === 'amount' ? (
          <>
            <span>0</span>
            <span>{densityFigure(ramp.most / 2, units.value).value}</span>
            <span>
              {densityFigure(ramp.most, units.value).value} {densityFigure(ramp.most, units.value).unit}
            </span>
          </>
        ) : shown === 'index' ? (
          <>
            <span>half of par</span>
            <span>par</span>
            <span>half more</span>
          </>
        ) : (
          <>
            <span>cold</span>
            <span>as chance has it</span>
            <span>hot</span>
          </>
        )}
      </p>
      {view.zones.length > 0 && (
        <p class="legend-line">
          <svg width="40" height="8" aria-hidden="true">
            <path d="M0 4h40" class="mark-zone" />
          </svg>
          low-yield zone, of which fewer than {showShare(view.alpha)} by chance
        </p>
      )}
      {view.tooLittle !== null && shown === 'hot' && <p>{view.tooLittle}</p>}
      {shown === 'index' && <p class="hint">Par, {showNumber(1, 0)}, is what the same crop gave across the farm.</p>}
    </section>
  )
}
