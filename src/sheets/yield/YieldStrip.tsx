import { Choice } from '../../ui/Choice.tsx'
import { lengthFigure, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { pointMethod, pointsShow, smoothM, yieldShown } from '../state/yields.ts'

/** Under the map: what the surface is coloured by, and how it is smoothed or told between places. */
export function YieldStrip() {
  const shown = yieldShown.value
  return (
    <div class="yield-strip">
      <Choice
        label="Shown"
        value={shown}
        onChange={(value) => {
          yieldShown.value = value
        }}
        options={[
          { value: 'index', words: 'Index' },
          { value: 'density', words: 'Density' },
          { value: 'points', words: 'Between' },
          { value: 'hot', words: 'Hot and cold' },
        ]}
      />
      {(shown === 'index' || shown === 'density') && <Smooth />}
      {shown === 'points' && <Between />}
    </div>
  )
}

function Smooth() {
  return (
    <label class="slide">
      <span>Smooth</span>
      <input
        type="range"
        min="0"
        max="5"
        step="0.5"
        value={smoothM.value}
        onInput={(event) => {
          smoothM.value = Number(event.currentTarget.value)
        }}
      />
      <span class="slide-value">{smoothM.value === 0 ? 'none' : told(lengthFigure(smoothM.value, units.value))}</span>
    </label>
  )
}

function Between() {
  return (
    <div class="slide">
      <select
        aria-label="How it is told between places"
        value={pointMethod.value}
        onChange={(event) => {
          pointMethod.value = event.currentTarget.value as typeof pointMethod.value
          if (pointMethod.value === 'inverse distance') pointsShow.value = 'value'
        }}
      >
        <option value="kriging">by kriging</option>
        <option value="inverse distance">by inverse distance</option>
      </select>
      {pointMethod.value === 'kriging' && (
        <select
          aria-label="What is shown of it"
          value={pointsShow.value}
          onChange={(event) => {
            pointsShow.value = event.currentTarget.value as typeof pointsShow.value
          }}
        >
          <option value="value">its index</option>
          <option value="error">its standard error</option>
        </select>
      )}
    </div>
  )
}
