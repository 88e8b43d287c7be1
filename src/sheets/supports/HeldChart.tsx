import type { HeldOn } from '../../../geo/supports/heldByDay.ts'
import { showMonth } from '../show/dates.ts'
import { addDays, daysBetween } from '../show/days.ts'
import { wholeLengthFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'

interface Props {
  readonly steps: readonly HeldOn[]
  readonly from: string
  readonly to: string
  readonly on: string
}

const [WIDE, HIGH, LEFT, FOOT, TOP] = [360, 150, 40, 20, 8]

/** Climbing row through a season: what is held below, what is not above it. Its figures stand in the table beside it. */
export function HeldChart({ steps, from, to, on }: Props) {
  const days = daysBetween(from, to) + 1
  const most = Math.max(1, ...steps.map(({ climbingM }) => climbingM))
  const x = (day: string) => LEFT + (Math.min(days, Math.max(0, daysBetween(from, day))) / days) * (WIDE - LEFT)
  const y = (m: number) => TOP + (1 - m / most) * (HIGH - FOOT - TOP)
  const shape = (top: (step: HeldOn) => number, bottom: (step: HeldOn) => number) => {
    const along = steps.flatMap((step, n) => {
      const end = steps[n + 1]?.on ?? addDays(to, 1)
      return [[x(step.on), step] as const, [x(end), step] as const]
    })
    const out = along.map(([at, step]) => `${at.toFixed(1)},${y(top(step)).toFixed(1)}`)
    const back = along.reverse().map(([at, step]) => `${at.toFixed(1)},${y(bottom(step)).toFixed(1)}`)
    return [...out, ...back].join(' ')
  }
  const months = Array.from({ length: 13 }, (_, n) => {
    const month = new Date(Date.UTC(Number(from.slice(0, 4)), Number(from.slice(5, 7)) - 1 + n, 1))
    return month.toISOString().slice(0, 10)
  }).filter((month) => month <= to)
  return (
    <svg class="plain-chart" viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
      <polygon
        class="held-area"
        points={shape(
          ({ heldM }) => heldM,
          () => 0,
        )}
      />
      <polygon
        class="unheld-area"
        points={shape(
          ({ climbingM }) => climbingM,
          ({ heldM }) => heldM,
        )}
      />
      <path class="axis" d={`M${LEFT} ${TOP}V${HIGH - FOOT}H${WIDE}`} />
      <text x={LEFT - 5} y={y(most) + 4} text-anchor="end">
        {wholeLengthFigure(most, units.value).value}
      </text>
      <text x={LEFT - 5} y={y(0)} text-anchor="end">
        0
      </text>
      {months
        .filter((_, n) => n % 2 === 0)
        .map((month) => (
          <text key={month} x={x(month) + 1} y={HIGH - 5}>
            {showMonth(month)}
          </text>
        ))}
      {on >= from && on <= to && <path class="day-line" d={`M${x(on)} ${TOP}V${HIGH - FOOT}`} />}
    </svg>
  )
}
