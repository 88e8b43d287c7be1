import { rampStops } from '../../map/theme/ramps.ts'
import { Mark } from '../../ui/Mark.tsx'
import { Ramp } from '../../ui/Ramp.tsx'
import { densityFigure, showShare, type Units } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { yielded, yieldShown } from '../state/yields.ts'
import { rampOf, type YieldShown } from './rampOf.ts'

/** The Yield sheet's legend: the ramp with its values, and what the dashes mean. */
export function YieldLegend() {
  const view = yielded.value
  if (!view) return null
  const shown = yieldShown.value
  const ramp = rampOf(view, shown)
  const words = wordsOf(shown, ramp.of === 'amount' ? ramp.most : 0, units.value)
  return (
    <section class="legend" aria-label="Legend">
      <h2>
        {TITLE[shown]}, {view.season}
      </h2>
      <div class="legend-ramp">
        <Ramp stops={rampStops(ramp)} />
        <p>
          {words.map((word) => (
            <span key={word}>{word}</span>
          ))}
        </p>
      </div>
      {view.zones.length > 0 && (
        <Mark of="mark-zone">low-yield zone: fewer than {showShare(view.alpha)} of such by chance</Mark>
      )}
      {shown === 'hot' && view.tooLittle !== null && <p>{view.tooLittle}</p>}
    </section>
  )
}

const TITLE = { index: 'Yield index', density: 'Yield density', hot: 'Hot and cold' } as const

function wordsOf(shown: YieldShown, most: number, units: Units): readonly string[] {
  if (shown === 'index') return ['half of par', 'par', 'half more']
  if (shown === 'hot') return ['cold', 'as chance has it', 'hot']
  const { value, unit } = densityFigure(most, units)
  return ['0', densityFigure(most / 2, units).value, `${value} ${unit}`]
}
