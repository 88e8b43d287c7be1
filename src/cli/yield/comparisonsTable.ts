import type { ReckonedComparisons } from '../../../geo/yield/compare/reckonComparisons.ts'
import { table } from '../table.ts'

/** What gave more a row metre or a plant, with the interval and what it rests on. */
export function comparisonsTable({ comparisons, rule }: ReckonedComparisons): string {
  const sure = comparisons.filter(({ told }) => told !== null)
  const lines = sure.map(({ by, per, cropName, a, b, told, verdict }) => [
    cropName,
    by,
    per,
    `${a.name} (${a.plantings})`,
    a.rate,
    `${b.name} (${b.plantings})`,
    b.rate,
    told?.difference,
    told?.low,
    told?.high,
    told?.p,
    `${verdict}${told?.paired ? `, ${told.counts[0]} beds with both` : ''}`,
  ])
  const heads = ['crop', 'by', 'kg per', 'one', 'gave', 'other', 'gave', 'difference', 'low', 'high', 'p', 'verdict']
  const rest = `${comparisons.length - sure.length} more pairs: too little to tell.`
  return `Comparisons (number of plantings in brackets)\n${table(heads, lines, 3)}\n\n${rest} ${rule}`
}
