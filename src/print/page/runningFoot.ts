import { type Box, lineMark, type Mark, textMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { INK, MADDER, SOFT } from './ink.ts'
import type { Titles } from './titleBlock.ts'

/** Height that the foot of a list's page takes. */
export const footMm = (typeMm: number): number => typeMm * 2.4

/** The line at the foot of a list's page: farm, sheet and day, the invented mark, and which page it is. */
export function runningFoot(
  { farm, sheet, day, invented }: Titles,
  page: string,
  type: Type,
  typeMm: number,
  room: Box,
): Mark[] {
  const size = typeMm * 0.88
  const right = room.xMm + room.wideMm
  const y = room.yMm + room.highMm
  const marks: Mark[] = [
    lineMark([room.xMm, y - typeMm * 1.5], [right, y - typeMm * 1.5], INK, 0.2),
    textMark(page, [right, y - typeMm * 0.3], size, 'sans', SOFT, 'end'),
  ]
  let x = room.xMm
  const told = [[`${farm}. ${sheet}, as on ${day}.`, SOFT], ...(invented === null ? [] : [[invented, MADDER]])] as const
  for (const [text, colour] of told) {
    marks.push(textMark(text!, [x, y - typeMm * 0.3], size, 'sans', colour!))
    x += type.widthMm(text!, size, 'sans') + size
  }
  return marks
}
