import type { CardLine } from '../../desk/door.ts'
import { showDay } from './dates.ts'
import {
  alongFigure,
  areaFigure,
  densityFigure,
  type Figure,
  lengthFigure,
  massFigure,
  showCount,
  showNumber,
  told,
  type Units,
} from './figures.ts'

const FIGURES: Partial<Record<NonNullable<CardLine['unit']>, (value: number, units: Units) => Figure>> = {
  m: lengthFigure,
  m2: areaFigure,
  kg: massFigure,
  'kg/m2': densityFigure,
  'kg/m': alongFigure,
}

/** A card's line as it is shown, in the person's units; what is not known is said so. */
export function showLine({ value, unit }: CardLine, units: Units): string {
  if (value === null || value === '') return 'not known'
  if (typeof value === 'string') return unit === 'day' ? showDay(value) : value
  if (unit === 'count') return showCount(value)
  if (unit === 'deg') return `${showNumber(value, 0)}°`
  const figure = unit && FIGURES[unit]
  return figure ? told(figure(value, units)) : value.toLocaleString(undefined, { maximumFractionDigits: 3 })
}
