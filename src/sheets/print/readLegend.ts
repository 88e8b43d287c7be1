import { PAPER_PX_MM } from '../../print/map/paperZoom.ts'
import type { LegendItem } from '../../print/page/legend.ts'
import { cssColour } from './cssColour.ts'
import { markOf } from './svgMark.ts'

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

/** A mark of a legend stands in its own pixels, from its upper left corner. */
const TO_PAPER = { a: PAPER_PX_MM, b: 0, c: 0, d: PAPER_PX_MM, e: 0, f: 0 }

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
  const drawn = [...element.querySelectorAll('svg *')].flatMap((one) => markOf(one, TO_PAPER))
  return [drawn.length > 0 ? { is: 'mark', marks: drawn, words } : { is: 'words', words }]
}
