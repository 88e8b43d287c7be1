import { type HatchClass, hatchClasses, inHatch } from '../../print/map/parHatches.ts'
import { boxMark, boxSteps, type Mark } from '../../print/marks.ts'
import { type LegendItem, MARK_MM } from '../../print/page/legend.ts'

const BOX = { xMm: 0, yMm: 0, wideMm: MARK_MM.wide, highMm: MARK_MM.high }

const sample = (of: HatchClass, black: boolean): readonly Mark[] => [
  ...inHatch(boxSteps(BOX), BOX, of, black),
  boxMark(BOX, null, '#22302c', 0.15),
]

/** A legend of a surface about par with what its hatches mean; in black they stand in place of the ramp. */
export function parLegend(legend: readonly LegendItem[], hot: boolean, black: boolean): readonly LegendItem[] {
  const mark = (of: HatchClass, words: string): LegendItem => ({ is: 'mark', marks: sample(of, black), words })
  const [lowest, low, high, highest] = hatchClasses(black)
  if (!black) {
    const told = hot ? 'hatched: cold' : 'hatched: below 0.9 of par'
    return [...legend, mark(hot ? lowest! : low!, told), ...(hot ? [] : [mark(lowest!, 'below 0.75')])]
  }
  const stand: readonly LegendItem[] = hot
    ? [mark(lowest!, 'cold'), mark(highest!, 'hot')]
    : [
        mark(lowest!, 'below 0.75 of par'),
        mark(low!, '0.75 to 0.9'),
        mark(high!, '1.1 to 1.25'),
        mark(highest!, 'above 1.25'),
      ]
  return legend.flatMap((item) => (item.is === 'ramp' ? stand : [item]))
}
