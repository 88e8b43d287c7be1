import { Choice } from '../../ui/Choice.tsx'
import { lengthFigure, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { smoothM, yieldShown } from '../state/yields.ts'

/** Under the map: what the surface is coloured by, and how far it is smoothed. */
export function YieldStrip() {
  return (
    <div class="yield-strip">
      <Choice
        label="Shown"
        value={yieldShown.value}
        onChange={(shown) => {
          yieldShown.value = shown
        }}
        options={[
          { value: 'index', words: 'Index' },
          { value: 'density', words: 'Density' },
          { value: 'hot', words: 'Hot and cold' },
        ]}
      />
      {yieldShown.value !== 'hot' && (
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
          <span class="slide-value">
            {smoothM.value === 0 ? 'none' : told(lengthFigure(smoothM.value, units.value))}
          </span>
        </label>
      )}
    </div>
  )
}
