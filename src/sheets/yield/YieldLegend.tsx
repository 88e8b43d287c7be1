import type { Ramp as MapRamp } from '../../map/farmMap.ts'
import { rampStops } from '../../map/theme/ramps.ts'
import { Mark } from '../../ui/Mark.tsx'
import { Ramp } from '../../ui/Ramp.tsx'
import {
  densityFigure,
  told as long,
  showCount,
  showNumber,
  showShare,
  type Units,
  wholeLengthFigure,
} from '../show/figures.ts'
import { units } from '../state/farm.ts'
import {
  askYieldPoints,
  pointMethod,
  pointsShow,
  pointsUnderWay,
  stopYieldPoints,
  yielded,
  yieldPoints,
  yieldShown,
} from '../state/yields.ts'
import { groundWords } from './groundWords.ts'
import { surface } from './onMap.ts'
import type { YieldShown } from './rampOf.ts'
import { pointsAsked } from './surfaceAsked.ts'

/** The Yield sheet's legend: the ramp with its values, and what the dashes mean. */
export function YieldLegend() {
  const view = yielded.value
  if (!view) return null
  const shown = yieldShown.value
  const ramp = surface.value?.ramp
  return (
    <section class="legend" aria-label="Legend">
      <h2>
        {titleOf(shown)}, {groundWords(view.seasons, view.of)}
      </h2>
      {ramp && (
        <div class="legend-ramp">
          <Ramp stops={rampStops(ramp)} />
          <p>
            {wordsOf(shown, ramp, units.value).map((word) => (
              <span key={word}>{word}</span>
            ))}
          </p>
        </div>
      )}
      {shown === 'points' && <PointsTold />}
      {view.zones.length > 0 && (
        <Mark of="mark-zone">low-yield zone: fewer than {showShare(view.alpha)} of such by chance</Mark>
      )}
      {shown === 'hot' && view.tooLittle !== null && <p>{view.tooLittle}</p>}
    </section>
  )
}

const TITLE = { index: 'Yield index', density: 'Yield density', hot: 'Hot and cold' } as const

function titleOf(shown: YieldShown): string {
  if (shown !== 'points') return TITLE[shown]
  return `${pointsShow.value === 'error' ? 'Standard error of the index' : 'Index'} between places, by ${pointMethod.value}`
}

function wordsOf(shown: YieldShown, ramp: MapRamp, units: Units): readonly string[] {
  if (shown === 'hot') return ['cold', 'as chance has it', 'hot']
  if (ramp.of === 'par') return ['half of par', 'par', 'half more']
  const { least = 0, most } = ramp
  if (shown === 'points') return [least, (least + most) / 2, most].map((value) => showNumber(value, 3))
  const { value, unit } = densityFigure(most, units)
  return ['0', densityFigure(most / 2, units).value, `${value} ${unit}`]
}

/** How well a surface through places tells them. */
function PointsTold() {
  const told = yieldPoints.value
  if (pointsUnderWay.value)
    return (
      <p>
        <span role="status">Reckoning it from place to place …</span>{' '}
        <button type="button" class="quiet" data-print="no" onClick={stopYieldPoints}>
          Stop
        </button>
      </p>
    )
  if (!told)
    return (
      <p data-print="no">
        <button type="button" class="quiet" onClick={() => void askYieldPoints(pointsAsked())}>
          Reckon it from place to place
        </button>
      </p>
    )
  if (!told.surface) return <p>Too little to tell. {told.tooLittle}</p>
  const { points, missedBy, model } = told.surface
  return (
    <p>
      Through the middles of {showCount(points)} stretches of bed. Each, told from the others, is missed by{' '}
      {showNumber(missedBy, 2)} (root mean square)
      {model && `; ${model.shape} semivariogram, range ${long(wholeLengthFigure(model.rangeM, units.value))}`}.
    </p>
  )
}
