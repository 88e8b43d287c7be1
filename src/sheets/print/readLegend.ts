import { PAPER_PX_MM } from '../../print/map/paperZoom.ts'
import { circleSteps } from '../../print/map/shapes.ts'
import { boxSteps, type PathMark, type Step } from '../../print/marks.ts'
import type { LegendItem } from '../../print/page/legend.ts'
import { cssColour } from './cssColour.ts'
import { svgSteps } from './svgSteps.ts'

/** A legend as it stands on the sheet, in the day's colours: titles, marks with their words, ramps, notes. */
export function readLegend(legend: HTMLElement | null): readonly LegendItem[] {
  if (!legend) return []
  const before = legend.style.colorScheme
  legend.style.colorScheme = 'light'
  try {
    return [...legend.children].flatMap(itemOf)
  } finally {
    legend.style.colorScheme = before
  }
}

const wordsOf = (element: Element | null) => (element?.textContent ?? '').replace(/\s+/g, ' ').trim()

function itemOf(element: Element): LegendItem[] {
  const gradient = element.querySelector('linearGradient')
  if (gradient) {
    const stops = [...gradient.querySelectorAll('stop')].map(
      (stop) => [Number(stop.getAttribute('offset')), cssColour(getComputedStyle(stop).stopColor)!.colour] as const,
    )
    return [{ is: 'ramp', stops, words: [...element.querySelectorAll('span')].map(wordsOf) }]
  }
  const words = wordsOf(element)
  if (words === '') return []
  if (/^H\d$/.test(element.tagName)) return [{ is: 'title', words }]
  const drawn = [...element.querySelectorAll('svg *')].flatMap(markOf)
  return [drawn.length > 0 ? { is: 'mark', marks: drawn, words } : { is: 'words', words }]
}

function markOf(element: Element): PathMark[] {
  const steps = stepsOf(element)
  if (!steps) return []
  const style = getComputedStyle(element)
  const px = (text: string) => Number.parseFloat(text) * PAPER_PX_MM
  const stroke = cssColour(style.stroke)
  return [
    {
      draw: 'path',
      steps,
      fill: cssColour(style.fill),
      stroke: stroke && {
        ...stroke,
        widthMm: px(style.strokeWidth),
        dashMm: style.strokeDasharray === 'none' ? [] : style.strokeDasharray.split(/[\s,]+/).map(px),
        cap: style.strokeLinecap as 'butt' | 'round' | 'square',
        join: 'miter',
      },
    },
  ]
}

function stepsOf(element: Element): readonly Step[] | null {
  const n = (name: string) => Number(element.getAttribute(name) ?? 0) * PAPER_PX_MM
  switch (element.tagName) {
    case 'path':
      return svgSteps(element.getAttribute('d') ?? '', PAPER_PX_MM)
    case 'circle':
      return circleSteps([n('cx'), n('cy')], n('r'))
    case 'rect':
      return boxSteps({ xMm: n('x'), yMm: n('y'), wideMm: n('width'), highMm: n('height') })
    case 'line':
      return [
        ['M', n('x1'), n('y1')],
        ['L', n('x2'), n('y2')],
      ]
    default:
      return null
  }
}
