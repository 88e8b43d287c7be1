import type { Metres } from '../../../geo/plane/lonLat.ts'
import { type Frame, type Spread, toPlane } from '../frame.ts'
import type { Box } from '../marks.ts'

/** One page of a map that takes several: its name by column and row, as on a street atlas, and its frame. */
export interface GridPage {
  readonly name: string
  readonly column: number
  readonly row: number
  readonly frame: Frame
}

/** Neighbouring pages show so much of the same ground. */
const OVERLAP_MM = 10

const letters = (n: number): string =>
  n < 26 ? String.fromCharCode(65 + n) : letters(Math.floor(n / 26) - 1) + letters(n % 26)

/** The pages that show all of a spread at a scale, by rows from the upper left; one page, in its middle, where it fits. */
export function mapGrid(spread: Spread, box: Box, scale: number, roomMm: number): readonly GridPage[] {
  const whole: Frame = { box, centre: spread.centre, scale, upDeg: spread.upDeg }
  const count = (lengthM: number, sideMm: number) => {
    const needMm = (lengthM * 1000) / scale + 2 * roomMm
    return needMm <= sideMm + 1e-6 ? 1 : Math.ceil((needMm - OVERLAP_MM) / (sideMm - OVERLAP_MM) - 1e-9)
  }
  const [columns, rows] = [count(spread.acrossM, box.wideMm), count(spread.alongM, box.highMm)]
  const [stepX, stepY] = [box.wideMm - OVERLAP_MM, box.highMm - OVERLAP_MM]
  const back = toPlane(whole)
  const [x0, y0] = [box.xMm + box.wideMm / 2, box.yMm + box.highMm / 2]
  return Array.from({ length: columns * rows }, (_, n) => {
    const [column, row] = [n % columns, Math.floor(n / columns)]
    const centre: Metres = back([x0 + (column - (columns - 1) / 2) * stepX, y0 + (row - (rows - 1) / 2) * stepY])
    return { name: `${letters(column)}${row + 1}`, column, row, frame: { ...whole, centre } }
  })
}
