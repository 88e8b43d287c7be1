import { Choice } from '../../ui/Choice.tsx'
import { AHEAD_YEARS, afterNoonMin, canopies, sitingShown, yearsOn } from '../state/siting.ts'
import { daySun, STEP_MIN, showFarmClock } from './daySun.ts'

/** Under the map: what is laid over the plan, and the hour or the year that it is shown for. */
export function SitingStrip() {
  return (
    <div class="yield-strip siting-strip">
      <Choice
        label="Shown"
        value={sitingShown.value}
        onChange={(shown) => {
          sitingShown.value = shown
        }}
        options={[
          { value: 'plan', words: 'Plan' },
          { value: 'shadows', words: 'Shadows' },
          { value: 'lost', words: 'Sun lost' },
          { value: 'canopies', words: 'Canopies to come' },
        ]}
      />
      {sitingShown.value === 'shadows' && <HourSlide />}
      {sitingShown.value === 'canopies' && <YearSlide />}
    </div>
  )
}

function HourSlide() {
  const now = daySun.value
  if (!now) return null
  const clock = showFarmClock(now.atMs)
  return (
    <label class="slide">
      <span>Time</span>
      <input
        type="range"
        min={-now.halfMin}
        max={now.halfMin}
        step={STEP_MIN}
        value={Math.round((now.atMs - now.noonMs) / 60_000)}
        aria-valuetext={clock}
        onInput={(event) => {
          afterNoonMin.value = Number(event.currentTarget.value)
        }}
      />
      <span class="slide-value">{clock}</span>
    </label>
  )
}

function YearSlide() {
  const first = canopies.value?.years[0]
  const words = first === undefined ? '' : String(first + yearsOn.value)
  return (
    <label class="slide">
      <span>Year</span>
      <input
        type="range"
        min="0"
        max={AHEAD_YEARS}
        step="1"
        value={yearsOn.value}
        aria-valuetext={words}
        onInput={(event) => {
          yearsOn.value = Number(event.currentTarget.value)
        }}
      />
      <span class="slide-value">{words}</span>
    </label>
  )
}
