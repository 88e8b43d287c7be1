import { useComputed, useSignalEffect } from '@preact/signals'
import { useRef } from 'preact/hooks'
import { sayDay, showDayOfYear, showMonth } from '../show/dates.ts'
import { addDays } from '../show/days.ts'
import { massFigure, told } from '../show/figures.ts'
import { seasonStartMonth, units } from '../state/farm.ts'
import { askWeeks, weeks } from '../state/weeks.ts'
import { on, season } from '../state/where.ts'
import { DayEntry } from './DayEntry.tsx'
import { Seasons } from './Seasons.tsx'
import { dayAt, daysIn, stripPlaces } from './stripPlaces.ts'

const STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowRight: 1,
  ArrowDown: -1,
  ArrowUp: 1,
  PageDown: -7,
  PageUp: 7,
}

/** The season under the map: what was picked each week, and the line that says which day is shown. */
export function SeasonStrip() {
  useSignalEffect(() => void askWeeks(season.value))
  const places = useComputed(() =>
    stripPlaces(season.value, seasonStartMonth.value, weeks.value.get(season.value) ?? []),
  ).value
  const track = useRef<HTMLDivElement>(null)
  const follow = (event: PointerEvent) => {
    const { left, width } = track.current!.getBoundingClientRect()
    on.value = dayAt(places, (event.clientX - left) / width)
  }
  const press = (event: PointerEvent) => {
    if (event.button !== 0) return
    track.current!.setPointerCapture(event.pointerId)
    follow(event)
  }
  const move = (event: PointerEvent) => {
    if (track.current!.hasPointerCapture(event.pointerId)) follow(event)
  }
  const key = (event: KeyboardEvent) => {
    const step = STEPS[event.key]
    if (step !== undefined) on.value = addDays(on.value, step)
    else if (event.key === 'Home') on.value = places.from
    else if (event.key === 'End') on.value = addDays(places.from, places.days - 1)
    else return
    event.preventDefault()
  }
  const here = `${((daysIn(places, on.value) + 0.5) / places.days) * 100}%`
  return (
    <section class="strip" aria-label="Season strip">
      <DayEntry />
      <div
        class="strip-track"
        ref={track}
        role="slider"
        tabIndex={0}
        aria-label="Day shown"
        aria-orientation="horizontal"
        aria-valuemin={0}
        aria-valuemax={places.days - 1}
        aria-valuenow={daysIn(places, on.value)}
        aria-valuetext={sayDay(on.value)}
        onPointerDown={press}
        onPointerMove={move}
        onKeyDown={key}
      >
        <div class="strip-bars">
          {places.bars.map(({ week, at, width, height }) => (
            <div
              key={week.from}
              class="strip-bar"
              style={{ left: `${at * 100}%`, width: `${width * 100}%`, height: `${height * 100}%` }}
              title={`week of ${showDayOfYear(week.from)}: ${told(massFigure(week.kg, units.value))} in ${week.picks} picks`}
            />
          ))}
        </div>
        {places.months.map((month) => (
          <div key={month.from} class="strip-month" style={{ left: `${month.at * 100}%` }}>
            <span>{showMonth(month.from)}</span>
          </div>
        ))}
        <div class="strip-line" style={{ left: here }} />
      </div>
      <Seasons />
    </section>
  )
}
