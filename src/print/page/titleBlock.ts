import { type Box, boxMark, lineMark, type Mark, moved, SOLID, textMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { wrap } from '../type/wrap.ts'
import { INK, MADDER, RULE, SOFT } from './ink.ts'
import { type LegendItem, layLegend } from './legend.ts'

/** What a sheet's title block says, all in the words that are to be printed. */
export interface Titles {
  readonly farm: string
  /** "Sheet 1, Ground". */
  readonly sheet: string
  readonly day: string
  /** Marks a farm that does not exist; null for a real one. */
  readonly invented: string | null
  readonly cautions: readonly string[]
}

/** A bar of round length, as drawn at a scale. */
export interface PaperBar {
  readonly lengthMm: number
  readonly half: string
  readonly whole: string
}

/** What a map page's block tells of its map, or null words where the page has a map of its own scale only. */
export interface BlockOfMap {
  /** N of 1:N. */
  readonly scale: number
  /** The same in feet to an inch, where that is how it is spoken of. */
  readonly scaleWords: string | null
  readonly bar: PaperBar
  readonly upDeg: number
  /** "Page 2 of 5, map B1". */
  readonly page: string
}

const CELL_MM = { day: 34, scale: 66, north: 15 } as const
/** Room within a cell. */
const PAD = 2

export interface LaidBlock {
  readonly highMm: number
  draw(box: Box, map: BlockOfMap): Mark[]
}

/** The strip at a map's foot: legend, cautions, then the cells with farm, sheet, day, scale and north. */
export function layBlock(
  titles: Titles,
  legend: readonly LegendItem[],
  type: Type,
  typeMm: number,
  wideMm: number,
): LaidBlock {
  const small = typeMm * 0.88
  const laid = legend.length > 0 ? layLegend(legend, type, typeMm, wideMm - 2 * PAD) : { marks: [], highMm: 0 }
  const legendMm = laid.highMm === 0 ? 0 : laid.highMm + 1.6
  const cautions =
    titles.cautions.length > 0 ? wrap(type, titles.cautions.join('  '), 'sans', small, wideMm - 2 * PAD) : []
  const cautionsMm = cautions.length === 0 ? 0 : cautions.length * small * 1.25 + 2
  const nameMm = wideMm - CELL_MM.day - CELL_MM.scale - CELL_MM.north
  const sheet = wrap(type, titles.sheet, 'serif', typeMm * 1.35, nameMm - 2 * PAD)
  const farm = wrap(type, titles.farm, 'sans', typeMm, nameMm - 2 * PAD)
  const told = 1 + (titles.invented === null ? 0 : 1)
  const cellsMm = Math.max(17, (sheet.length * 1.7 + farm.length * 1.25 + told * 1.25) * typeMm + 2.2)
  return {
    highMm: legendMm + cautionsMm + cellsMm,
    draw({ xMm, yMm }, map) {
      const marks: Mark[] = [lineMark([0, 0], [wideMm, 0], INK, 0.35), ...moved(laid.marks, PAD, 0.8)]
      let y = legendMm
      if (legendMm > 0 && cautions.length > 0) marks.push(lineMark([0, y], [wideMm, y], RULE, 0.15))
      for (const [n, line] of cautions.entries())
        marks.push(textMark(line, [PAD, y + 1 + (n * 1.25 + 0.95) * small], small, 'sans', INK))
      y += cautionsMm
      if (y > 0) marks.push(lineMark([0, y], [wideMm, y], INK, 0.2))
      marks.push(...moved(nameMarks(titles, sheet, farm, map.page, typeMm), PAD, y + 1))
      const edges = [nameMm, nameMm + CELL_MM.day, nameMm + CELL_MM.day + CELL_MM.scale]
      for (const edge of edges) marks.push(lineMark([edge, y], [edge, y + cellsMm], RULE, 0.15))
      marks.push(
        textMark('as on', [edges[0]! + PAD, y + cellsMm / 2 - typeMm * 0.35], typeMm * 0.9, 'sans', SOFT),
        textMark(titles.day, [edges[0]! + PAD, y + cellsMm / 2 + typeMm * 0.95], typeMm * 1.05, 'sans', INK),
        ...moved(scaleMarks(map, type, typeMm), edges[1]! + PAD, y + cellsMm / 2 - 7),
        ...moved(northMarks(map.upDeg, typeMm), edges[2]! + CELL_MM.north / 2, y + cellsMm / 2),
      )
      return moved(marks, xMm, yMm)
    },
  }
}

function nameMarks(
  titles: Titles,
  sheet: readonly string[],
  farm: readonly string[],
  page: string,
  typeMm: number,
): Mark[] {
  const marks: Mark[] = []
  let y = 0
  const line = (text: string, size: number, face: 'sans' | 'serif', colour: string, high: number) => {
    marks.push(textMark(text, [0, y + size * 0.95], size, face, colour))
    y += high
  }
  for (const text of sheet) line(text, typeMm * 1.35, 'serif', INK, typeMm * 1.7)
  for (const text of farm) line(text, typeMm, 'sans', INK, typeMm * 1.25)
  if (titles.invented !== null) line(titles.invented, typeMm * 0.95, 'sans', MADDER, typeMm * 1.25)
  line(page, typeMm * 0.9, 'sans', SOFT, typeMm * 1.25)
  return marks
}

/** The scale in figures over its bar; the bar's rectangle is as long as it says, to the middle of its outline. */
function scaleMarks({ scale, scaleWords, bar }: BlockOfMap, type: Type, typeMm: number): Mark[] {
  const size = typeMm * 1.5
  const told = `1:${scale}`
  const y = 9.2
  const tick = (x: number) => lineMark([x, y - 0.7], [x, y + 2.2], INK, 0.2)
  const label = (text: string, x: number, anchor: 'start' | 'middle') =>
    textMark(text, [x, y - 1.3], typeMm * 0.8, 'sans', INK, anchor)
  const wholeWide = type.widthMm(bar.whole, typeMm * 0.8, 'sans')
  const wholeAt = Math.min(bar.lengthMm, CELL_MM.scale - 2 * PAD - wholeWide / 2)
  return [
    textMark(told, [0, 4], size, 'serif', INK),
    ...(scaleWords === null
      ? []
      : [textMark(scaleWords, [type.widthMm(told, size, 'serif') + 2.5, 4], typeMm * 0.9, 'sans', SOFT)]),
    boxMark({ xMm: 0, yMm: y, wideMm: bar.lengthMm, highMm: 1.5 }, '#ffffff', INK, 0.2),
    boxMark({ xMm: 0, yMm: y, wideMm: bar.lengthMm / 2, highMm: 1.5 }, INK, null),
    tick(0),
    tick(bar.lengthMm / 2),
    tick(bar.lengthMm),
    label('0', 0, 'start'),
    label(bar.half, bar.lengthMm / 2, 'middle'),
    label(bar.whole, wholeAt, 'middle'),
  ]
}

/** Points to north, `upDeg` being the direction that is up. */
function northMarks(upDeg: number, typeMm: number): Mark[] {
  const rad = (-upDeg * Math.PI) / 180
  const at = (x: number, y: number): [number, number] => [
    x * Math.cos(rad) - y * Math.sin(rad),
    x * Math.sin(rad) + y * Math.cos(rad),
  ]
  const needle = (x: number, fill: string): Mark => ({
    draw: 'path',
    steps: [['M', ...at(0, -5.4)], ['L', ...at(x, 1.4)], ['L', ...at(0, 0.3)], ['Z']],
    fill: { colour: fill, opacity: 1 },
    stroke: { ...SOLID, colour: INK, widthMm: 0.2 },
  })
  const [nx, ny] = at(0, 4.4)
  return [
    needle(1.7, INK),
    needle(-1.7, '#ffffff'),
    textMark('N', [nx, ny + typeMm * 0.36], typeMm, 'serif', INK, 'middle'),
  ]
}
