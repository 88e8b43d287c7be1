import type { RowSide } from '../../../../geo/layout/layRows.ts'
import { sidesOf } from '../sideOf.ts'

/** The sides of ground that runs along a bearing (0 to below 180), as seen along it: by compass. */
export function sideWords(bearingDeg: number): Readonly<Record<RowSide, string>> {
  const [first, middle, last] = sidesOf(bearingDeg)
  return bearingDeg <= 135 ? { left: first, middle, right: last } : { left: last, middle, right: first }
}

/** The same as a direction: "north edge" is "north". */
export const directionOf = (side: string): string => side.replace(/ edge$/, '')
