import { Choice } from '../../ui/Choice.tsx'
import { AHEAD_YEARS, afterNoonMin, canopies, sitingShown, yearsOn } from '../state/siting.ts'
import { planYear, planYears, yearAsked } from '../state/sitingPlan.ts'
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
      {sitingShown.value === 'plan' && <PlanYearSlide />}
      {sitingShown.value === 'shadows' && <HourSlide />}
      {sitingShown.value === 'canopies' && <CanopyYearSlide />}
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

function CanopyYearSlide() {
  const first = canopies.value?.years[0]
  return (
    <YearSlide
      from={0}
      to={AHEAD_YEARS}
      at={yearsOn.value}
      words={first === undefined ? '' : String(first + yearsOn.value)}
      move={(year) => {
        yearsOn.value = year
      }}
    />
  )
}

/** The year that the rows of the plan are shown in. */
function PlanYearSlide() {
  const [years, year] = [planYears.value, planYear.value]
  if (year === null || years.length < 2) return null
  return (
    <YearSlide
      from={years[0]!}
      to={years.at(-1)!}
      at={year}
      words={String(year)}
      move={(asked) => {
        yearAsked.value = asked
      }}
    />
  )
}

interface SlideProps {
  readonly from: number
  readonly to: number
  readonly at: number
  readonly words: string
  readonly move: (to: number) => void
}

function YearSlide({ from, to, at, words, move }: SlideProps) {
  return (
    <label class="slide">
      <span>Year</span>
      <input
        type="range"
        min={from}
        max={to}
        step="1"
        value={at}
        aria-valuetext={words}
        onInput={(event) => move(Number(event.currentTarget.value))}
      />
      <span class="slide-value">{words}</span>
    </label>
  )
}
