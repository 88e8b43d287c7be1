import { boxSteps, type Mark, moved, type Step, textMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { wrap } from '../type/wrap.ts'
import { INK } from './ink.ts'

/** Room of a mark in a legend: as wide and high as it is on the screen, at the paper's pixel. */
export const MARK_MM = { wide: 8.5, high: 3.5 } as const

/** What stands in a legend: a mark with its words, a ramp of colours with words from its one end to the other, a title, plain words. */
export type LegendItem =
  | { readonly is: 'mark'; readonly marks: readonly Mark[]; readonly words: string }
  | {
      readonly is: 'ramp'
      readonly stops: readonly (readonly [value: number, colour: string])[]
      readonly words: readonly string[]
    }
  | { readonly is: 'title'; readonly words: string }
  | { readonly is: 'words'; readonly words: string }

const RAMP_MM = 52
const GAP_MM = 5

/** A legend set side by side and line below line in a width: its marks from the upper left corner, and its height. */
export function layLegend(
  items: readonly LegendItem[],
  type: Type,
  typeMm: number,
  wideMm: number,
): { readonly marks: readonly Mark[]; readonly highMm: number } {
  const size = typeMm * 0.92
  const row = size * 1.75
  const marks: Mark[] = []
  let [x, y, high] = [0, 0, row]
  const give = (wide: number, tall: number, drawn: readonly Mark[]) => {
    if (x > 0 && x + wide > wideMm + 1e-6) {
      x = 0
      y += high
      high = row
    }
    marks.push(...moved(drawn, x, y))
    high = Math.max(high, tall)
    x += wide + GAP_MM
  }
  for (const item of items) {
    if (item.is === 'ramp') {
      give(RAMP_MM, row + size * 1.1, rampMarks(item, size, row))
      continue
    }
    const face = item.is === 'title' ? 'serif' : 'sans'
    const from = item.is === 'mark' ? MARK_MM.wide + 1.6 : 0
    const lines = wrap(type, item.words, face, size, Math.min(wideMm, 120) - from)
    const wide = from + Math.max(...lines.map((line) => type.widthMm(line, size, face)))
    const mark = item.is === 'mark' ? moved(item.marks, 0, row / 2 - MARK_MM.high / 2) : []
    const words = lines.map((line, n) =>
      textMark(line, [from, row / 2 + size * 0.33 + n * size * 1.25], size, face, INK),
    )
    give(wide, row + (lines.length - 1) * size * 1.25, [...mark, ...words])
  }
  return { marks, highMm: y + high }
}

function rampMarks({ stops, words }: Extract<LegendItem, { is: 'ramp' }>, size: number, row: number): Mark[] {
  const [first, last] = [stops[0]![0], stops.at(-1)![0]]
  const top = row * 0.2
  const high = row * 0.6
  const bands = 48
  const cells = Array.from({ length: bands }, (_, i): Mark => {
    const box = { xMm: (i * RAMP_MM) / bands, yMm: top, wideMm: RAMP_MM / bands + 0.05, highMm: high }
    const fill = { colour: colourAt(stops, first + ((i + 0.5) / bands) * (last - first)), opacity: 1 }
    return { draw: 'path', steps: boxSteps(box), fill, stroke: null }
  })
  const edge: Step[] = [...boxSteps({ xMm: 0, yMm: top, wideMm: RAMP_MM, highMm: high })]
  const line = { colour: INK, opacity: 1, widthMm: 0.2, dashMm: [], cap: 'butt', join: 'miter' } as const
  const told = words.map((text, i) => {
    const share = words.length === 1 ? 0.5 : i / (words.length - 1)
    const anchor = share === 0 ? 'start' : share === 1 ? 'end' : 'middle'
    return textMark(text, [share * RAMP_MM, top + high + size * 1.05], size * 0.92, 'sans', INK, anchor)
  })
  return [...cells, { draw: 'path', steps: edge, fill: null, stroke: line }, ...told]
}

/** Straight lines in RGB between a ramp's stops. */
function colourAt(stops: readonly (readonly [number, string])[], value: number): string {
  const above = Math.max(
    1,
    stops.findIndex(([at]) => at >= value),
  )
  const [[a, low], [b, high]] = [stops[above - 1]!, stops[above]!]
  const share = b === a ? 0 : (value - a) / (b - a)
  const channel = (hex: string, i: number) => Number.parseInt(hex.slice(1 + 2 * i, 3 + 2 * i), 16)
  const two = (i: number) =>
    Math.round(channel(low, i) + share * (channel(high, i) - channel(low, i)))
      .toString(16)
      .padStart(2, '0')
  return `#${two(0)}${two(1)}${two(2)}`
}
