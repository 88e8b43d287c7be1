import { axisX, axisY, dot, line, plot, ruleY } from '@observablehq/plot'
import { showNumber } from '../show/figures.ts'

/** One factor's partial plot: values from 0 to 1, the yield index on them, and what 0 and 1 stand for. */
export interface PartialChart {
  readonly points: readonly { readonly value: number; readonly index: number }[]
  readonly line: readonly {
    readonly value: number
    readonly index: number
    readonly low: number
    readonly high: number
  }[]
  /** Words under the axis at its ends. */
  readonly none: string
  readonly all: string
  /** Whether there is nothing between the ends. */
  readonly eitherOr: boolean
}

const INK = 'var(--ink)'
/** How far points of either end are set apart from each other, so that one can see how many there are. */
const APART = 0.12

/** The chart as an SVG, without the library's own style element, which the page's policy does not let in. */
export function drawPartial({ points, line: fitted, none, all, eitherOr }: PartialChart, widthPx: number): Element {
  const aside = (k: number): number => (eitherOr ? APART * (((k * 0.618034) % 1) - 0.5) : 0)
  const placed = points.map(({ value, index }, k) => ({ value: value + aside(k), index }))
  const drawn = plot({
    className: 'chart',
    width: widthPx,
    height: 170,
    marginLeft: 40,
    marginRight: 10,
    marginTop: 22,
    marginBottom: 26,
    x: { domain: eitherOr ? [-APART, 1 + APART] : [0, 1], label: null },
    y: { nice: true, label: null },
    marks: [
      axisY({ ticks: 4, tickSize: 3, tickFormat: (v: number) => showNumber(v, 1), label: 'index', labelArrow: 'none' }),
      axisX([0], { tickSize: 3, tickFormat: () => none, textAnchor: eitherOr ? 'middle' : 'start', label: null }),
      axisX([1], { tickSize: 3, tickFormat: () => all, textAnchor: eitherOr ? 'middle' : 'end', label: null }),
      ruleY([1], { stroke: INK, strokeWidth: 0.5 }),
      dot(placed, { x: 'value', y: 'index', r: 2.5, stroke: INK, strokeWidth: 0.9, strokeOpacity: 0.65 }),
      line(fitted, { x: 'value', y: 'low', stroke: INK, strokeWidth: 1.25, strokeDasharray: '4,3' }),
      line(fitted, { x: 'value', y: 'high', stroke: INK, strokeWidth: 1.25, strokeDasharray: '4,3' }),
      line(fitted, { x: 'value', y: 'index', stroke: INK, strokeWidth: 2.5 }),
    ],
  })
  for (const style of drawn.querySelectorAll('style')) style.remove()
  return drawn
}
