import { axisX, axisY, barX, plot, rectY, ruleX, ruleY, text, tickX } from '@observablehq/plot'
import { showMonth } from '../show/dates.ts'
import { addDays } from '../show/days.ts'
import { showNumber } from '../show/figures.ts'

/** Masses in the person's unit, named by it. */
export interface Bar {
  readonly name: string
  readonly mass: number
  /** A second mass to set beside the first, drawn as a mark. */
  readonly against?: number
}
export interface Week {
  readonly week: string
  readonly mass: number
}

export type ChartAsked =
  | {
      readonly of: 'weeks'
      readonly from: string
      readonly to: string
      readonly unit: string
      readonly weeks: readonly Week[]
    }
  | {
      readonly of: 'crops'
      readonly from: string
      readonly to: string
      readonly unit: string
      readonly crops: readonly { readonly name: string; readonly mass: number; readonly weeks: readonly Week[] }[]
    }
  | { readonly of: 'bars'; readonly unit: string; readonly bars: readonly Bar[] }

/** So many lines are drawn; the table has them all. */
const MOST = 20
const INK = 'var(--ink)'
const FILL = 'var(--bar)'

/**
 * The chart as an SVG. The library's own style element is taken out, since the page's policy lets no style in but that
 * of its stylesheets; what it said is in season.css.
 */
export function drawChart(asked: ChartAsked, widthPx: number): Element {
  const drawn =
    asked.of === 'weeks' ? weeks(asked, widthPx) : asked.of === 'crops' ? crops(asked, widthPx) : bars(asked, widthPx)
  for (const style of drawn.querySelectorAll('style')) style.remove()
  return drawn
}

const day = (on: string) => new Date(`${on}T00:00:00Z`)
const weekBar = { x1: ({ week }: Week) => day(week), x2: ({ week }: Week) => day(addDays(week, 7)), y: 'mass' }
/** The axis ends with its last week, which may end after the day looked at. */
const months = (from: string, to: string, weeks: readonly Week[]) =>
  ({
    type: 'utc',
    domain: [day(from), day(addDays([to, ...weeks.map(({ week }) => addDays(week, 6))].sort().at(-1)!, 1))],
    label: null,
  }) as const
const monthTicks = axisX({
  ticks: 'month',
  tickFormat: (at: Date) => showMonth(at.toISOString().slice(0, 10)),
  tickSize: 3,
  label: null,
})
const number = (value: number) => showNumber(value, value < 10 && !Number.isInteger(value) ? 1 : 0)

function weeks({ from, to, unit, weeks }: ChartAsked & { of: 'weeks' }, width: number): Element {
  return plot({
    className: 'chart',
    width,
    height: 190,
    marginLeft: 44,
    marginRight: 4,
    x: months(from, to, weeks),
    y: { label: unit },
    marks: [
      axisY({ ticks: 4, tickSize: 3, tickFormat: number, label: unit, labelArrow: 'none' }),
      monthTicks,
      ruleY([0], { stroke: INK }),
      rectY(weeks, { ...weekBar, fill: FILL, stroke: INK, strokeWidth: 0.75, inset: 0.5 }),
    ],
  })
}

function crops({ from, to, crops }: ChartAsked & { of: 'crops' }, width: number): Element {
  const shown = crops.slice(0, MOST)
  const names = shown.map(({ name }) => name)
  const lines = shown.flatMap(({ name, weeks }) => weeks.map((week) => ({ ...week, name })))
  const left = labelPx(names)
  return plot({
    className: 'chart',
    width,
    height: shown.length * 34 + 34,
    marginLeft: left,
    marginRight: 46,
    marginTop: 4,
    marginBottom: 24,
    x: months(from, to, lines),
    y: { axis: null },
    fy: { domain: names, label: null, axis: null, padding: 0.15 },
    marks: [
      monthTicks,
      ruleY([0], { stroke: INK, strokeWidth: 0.75 }),
      rectY(lines, { ...weekBar, fy: 'name', fill: FILL, stroke: INK, strokeWidth: 0.75, inset: 0.25 }),
      text(shown, {
        fy: 'name',
        text: ({ name }: { name: string }) => shortened(name),
        frameAnchor: 'bottom-left',
        textAnchor: 'end',
        dx: -8,
        dy: -2,
        fill: INK,
      }),
      text(shown, {
        fy: 'name',
        text: ({ mass }: { mass: number }) => number(mass),
        frameAnchor: 'bottom-right',
        textAnchor: 'start',
        dx: 6,
        dy: -2,
        fill: INK,
      }),
    ],
  })
}

function bars({ unit, bars }: ChartAsked & { of: 'bars' }, width: number): Element {
  const shown = bars.slice(0, MOST)
  const names = shown.map(({ name }) => name)
  const against = shown.filter((bar) => bar.against !== undefined)
  return plot({
    className: 'chart',
    width,
    height: shown.length * 24 + 34,
    marginLeft: labelPx(names),
    marginRight: 46,
    marginTop: 4,
    x: { label: unit, ticks: 4 },
    y: { domain: names, label: null },
    marks: [
      axisX({ ticks: 4, tickSize: 3, tickFormat: number, label: unit, labelArrow: 'none' }),
      axisY({ tickSize: 0, tickFormat: shortened, label: null }),
      ruleX([0], { stroke: INK }),
      barX(shown, { x: 'mass', y: 'name', fill: FILL, stroke: INK, strokeWidth: 0.75, insetTop: 2, insetBottom: 2 }),
      tickX(against, { x: 'against', y: 'name', stroke: 'var(--madder)', strokeWidth: 4 }),
      text(shown, {
        x: ({ mass, against: other }: Bar) => Math.max(mass, other ?? 0),
        y: 'name',
        text: ({ mass }: Bar) => number(mass),
        textAnchor: 'start',
        dx: 6,
        fill: INK,
      }),
    ],
  })
}

const LONGEST = 20
const shortened = (name: string) => (name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name)
const labelPx = (names: readonly string[]) => 14 + 6.8 * Math.max(4, ...names.map((name) => shortened(name).length))
