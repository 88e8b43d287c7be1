import { PAPER_PX_MM } from '../../print/map/paperZoom.ts'
import type { Mark, TextMark } from '../../print/marks.ts'
import type { Block } from '../../print/page/blocks.ts'
import { cssColour } from './cssColour.ts'
import { markOf, onPaper, type ToPaper, unitMm } from './svgMark.ts'

/** A chart as it stands on the sheet, in the day's colours; null where it is not shown, so that nothing of it lies anywhere. */
export function readChart(chart: SVGSVGElement): Block | null {
  const { width, height } = chart.getBoundingClientRect()
  if (width === 0 || height === 0) return null
  const before = chart.style.colorScheme
  chart.style.colorScheme = 'light'
  try {
    const drawn = [...chart.querySelectorAll<SVGGraphicsElement>('*')].filter(
      (element) => element instanceof SVGGraphicsElement && !element.closest('defs, clipPath'),
    )
    const marks = drawn.flatMap((element): Mark[] => {
      const to = paperOf(element)
      if (!to) return []
      return element instanceof SVGTextElement ? textMarks(element, to) : markOf(element, to)
    })
    return { block: 'chart', wideMm: width * PAPER_PX_MM, highMm: height * PAPER_PX_MM, marks }
  } finally {
    chart.style.colorScheme = before
  }
}

function paperOf(element: SVGGraphicsElement): ToPaper | null {
  const at = element.getCTM()
  if (!at) return null
  const mm = (value: number) => value * PAPER_PX_MM
  return { a: mm(at.a), b: mm(at.b), c: mm(at.c), d: mm(at.d), e: mm(at.e), f: mm(at.f) }
}

/** Words where the browser has set them, line by line. */
function textMarks(text: SVGTextElement, to: ToPaper): TextMark[] {
  const lines = text.childElementCount > 0 ? [...text.querySelectorAll('tspan')] : [text]
  const style = getComputedStyle(text)
  const colour = cssColour(style.fill)
  let from = 0
  return lines.flatMap((line): TextMark[] => {
    const words = (line.textContent ?? '').trim()
    const first = from
    from += words.length
    if (words === '' || !colour || from > text.getNumberOfChars()) return []
    const [start, end] = [text.getStartPositionOfChar(first), text.getEndPositionOfChar(from - 1)]
    const anchor = ANCHORS[style.textAnchor] ?? 'start'
    const along = { start: 0, middle: 0.5, end: 1 }[anchor]
    const at = onPaper(to, start.x + along * (end.x - start.x), start.y + along * (end.y - start.y))
    return [
      {
        draw: 'text',
        text: words,
        at,
        sizeMm: Number.parseFloat(style.fontSize) * unitMm(to),
        face: Number(style.fontWeight) >= 600 ? 'sansBold' : 'sans',
        colour: colour.colour,
        anchor,
        turnDeg: text.getRotationOfChar(first) + (Math.atan2(to.b, to.a) * 180) / Math.PI,
        halo: null,
      },
    ]
  })
}

const ANCHORS: Readonly<Record<string, TextMark['anchor']>> = { start: 'start', middle: 'middle', end: 'end' }
