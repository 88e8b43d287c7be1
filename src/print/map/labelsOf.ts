import type { Feature } from 'geojson'
import type { Frame } from '../frame.ts'
import type { At, Box } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { wrap } from '../type/wrap.ts'
import type { LabelAsk } from './labels.ts'
import { askedOf, type LayerPaint } from './layerPaint.ts'
import { slidesOf } from './namingBeds.ts'
import { PAPER_PX_MM } from './paperZoom.ts'
import type { Shape } from './shapes.ts'

/** Type any smaller can't be read on a wall. */
const LEAST_MM = 2.1

/** A name a little too wide for a line is not broken: a number left alone on the next reads badly. */
const NEARLY = 1.3

const HOLDS: Readonly<Record<string, readonly [number, number]>> = {
  center: [0.5, 0.5],
  left: [0, 0.5],
  right: [1, 0.5],
  top: [0.5, 0],
  bottom: [0.5, 1],
  'top-left': [0, 0],
  'top-right': [1, 0],
  'bottom-left': [0, 1],
  'bottom-right': [1, 1],
}

/** What a layer of words asks for one feature: at its place, or halfway along the longest straight of a line that has room for it. */
export function labelsOf(
  paint: LayerPaint,
  layer: number,
  feature: Feature,
  shape: Shape,
  frame: Frame,
  type: Type,
): LabelAsk[] {
  const asked = askedOf(feature, shape.kind)
  if (!paint.draws(asked)) return []
  const text = paint.words('text-field', asked).trim()
  if (text === '') return []
  const sizeMm = Math.max(LEAST_MM, paint.number('text-size', asked) * PAPER_PX_MM)
  const face = paint.words('text-font', asked).startsWith('Selion serif') ? 'serifItalic' : 'sans'
  const [dx = 0, dy = 0] = paint.numbers('text-offset', asked)
  const onLine = paint.words('symbol-placement', asked) !== 'point'
  const halo = paint.number('text-halo-width', asked)
  const common = {
    layer,
    sizeMm,
    face,
    colour: paint.colour('text-color', asked).colour,
    halo:
      halo > 0
        ? { colour: paint.colour('text-halo-color', asked).colour, widthMm: Math.min(0.8, 2 * halo * PAPER_PX_MM) }
        : null,
    offsetMm: [dx * sizeMm, dy * sizeMm],
    paddingMm: paint.number('text-padding', asked) * PAPER_PX_MM,
    always: paint.words('text-allow-overlap', asked) === 'true',
    slides: slidesOf(paint.layer),
  } as const
  if (onLine) {
    const wide = type.widthMm(text, sizeMm, face)
    const straight = longestStraight(shape, frame.box)
    if (!straight || straight.lengthMm < wide + sizeMm) return []
    return [{ ...common, lines: [text], at: straight.middle, turnDeg: straight.turnDeg, hold: [0.5, 0.5] }]
  }
  const widestMm = paint.number('text-max-width', asked) * sizeMm
  const withMap = paint.words('text-rotation-alignment', asked) === 'map'
  return [
    {
      ...common,
      lines: type.widthMm(text, sizeMm, face) <= NEARLY * widestMm ? [text] : wrap(type, text, face, sizeMm, widestMm),
      at: middleOf(shape),
      turnDeg: paint.number('text-rotate', asked) - (withMap ? frame.upDeg : 0),
      hold: HOLDS[paint.words('text-anchor', asked)] ?? [0.5, 0.5],
    },
  ]
}

/** A point's place; the middle of an area's or a line's box. */
function middleOf({ kind, lines }: Shape): At {
  if (kind === 'Point') return lines[0]![0]!
  const [xs, ys] = [lines[0]!.map(([x]) => x), lines[0]!.map(([, y]) => y)]
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2]
}

/** The longest straight of a line as far as it shows. Turned to be read from the foot of the page. */
function longestStraight({ lines }: Shape, box: Box): { middle: At; lengthMm: number; turnDeg: number } | null {
  let best: { middle: At; lengthMm: number; turnDeg: number } | null = null
  for (const line of lines)
    for (let i = 1; i < line.length; i += 1) {
      const seen = cutTo(line[i - 1]!, line[i]!, box)
      if (!seen) continue
      const [[ax, ay], [bx, by]] = seen
      const lengthMm = Math.hypot(bx - ax, by - ay)
      if (best && lengthMm <= best.lengthMm) continue
      const turn = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI
      const turnDeg = turn > 90 ? turn - 180 : turn <= -90 ? turn + 180 : turn
      best = { middle: [(ax + bx) / 2, (ay + by) / 2], lengthMm, turnDeg }
    }
  return best
}

/** The part of a straight that lies in a box (Liang and Barsky 1984), or null. */
function cutTo(a: At, b: At, { xMm, yMm, wideMm, highMm }: Box): readonly [At, At] | null {
  let [from, to] = [0, 1]
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  for (const [p, q] of [
    [-dx, a[0] - xMm],
    [dx, xMm + wideMm - a[0]],
    [-dy, a[1] - yMm],
    [dy, yMm + highMm - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return null
    } else if (p < 0) from = Math.max(from, q / p)
    else to = Math.min(to, q / p)
  }
  if (from >= to) return null
  return [
    [a[0] + from * dx, a[1] + from * dy],
    [a[0] + to * dx, a[1] + to * dy],
  ]
}
