import { circleSteps } from '../../print/map/shapes.ts'
import { type At, boxSteps, mapStep, type PathMark, type Step } from '../../print/marks.ts'
import { cssColour } from './cssColour.ts'
import { svgSteps } from './svgSteps.ts'

/** From an element's own units to where it lies on paper: ax + cy + e, bx + dy + f, in millimetres (SVG's matrix). */
export interface ToPaper {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
  readonly e: number
  readonly f: number
}

export const onPaper = ({ a, b, c, d, e, f }: ToPaper, x: number, y: number): At => [
  a * x + c * y + e,
  b * x + d * y + f,
]

/** How many millimetres one of the element's units is. */
export const unitMm = ({ a, b, c, d }: ToPaper): number => Math.sqrt(Math.abs(a * d - b * c))

/** A path, circle, box, line or outline of an SVG as it is drawn on the screen; none for other elements. */
export function markOf(element: Element, to: ToPaper): PathMark[] {
  const steps = stepsOf(element)
  if (!steps) return []
  const style = getComputedStyle(element)
  const unit = unitMm(to)
  const lengthMm = (text: string) => Number.parseFloat(text) * unit
  const opacity = Number(style.opacity)
  const [fill, stroke] = [cssColour(style.fill), cssColour(style.stroke)]
  if (!fill && !stroke) return []
  return [
    {
      draw: 'path',
      steps: steps.map((step) => mapStep(step, (x, y) => onPaper(to, x, y))),
      fill: fill && { ...fill, opacity: fill.opacity * opacity * Number(style.fillOpacity) },
      stroke: stroke && {
        ...stroke,
        opacity: stroke.opacity * opacity * Number(style.strokeOpacity),
        widthMm: lengthMm(style.strokeWidth),
        dashMm: style.strokeDasharray === 'none' ? [] : style.strokeDasharray.split(/[\s,]+/).map(lengthMm),
        cap: style.strokeLinecap as 'butt' | 'round' | 'square',
        join: 'miter',
      },
    },
  ]
}

function stepsOf(element: Element): readonly Step[] | null {
  const n = (name: string) => Number(element.getAttribute(name) ?? 0)
  switch (element.tagName) {
    case 'path':
      return svgSteps(element.getAttribute('d') ?? '')
    case 'circle':
      return circleSteps([n('cx'), n('cy')], n('r'))
    case 'rect':
      return boxSteps({ xMm: n('x'), yMm: n('y'), wideMm: n('width'), highMm: n('height') })
    case 'line':
      return [
        ['M', n('x1'), n('y1')],
        ['L', n('x2'), n('y2')],
      ]
    case 'polygon':
      return svgSteps(`M${element.getAttribute('points') ?? ''}Z`)
    case 'polyline':
      return svgSteps(`M${element.getAttribute('points') ?? ''}`)
    default:
      return null
  }
}
