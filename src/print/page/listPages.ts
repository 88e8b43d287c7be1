import type { Page } from '../marks.ts'
import { type Paper, roomOn } from '../paper.ts'
import type { Type } from '../type/openFonts.ts'
import { type Block, heading, words } from './blocks.ts'
import { flow } from './flow.ts'
import { inBlack } from './inBlack.ts'
import { footMm, runningFoot } from './runningFoot.ts'
import type { Titles } from './titleBlock.ts'

/** A list on its own pages: its title, the cautions that go with it, its blocks, and a foot on every page. */
export interface ListAsked {
  readonly paper: Paper
  readonly titles: Titles
  readonly title: string
  readonly blocks: readonly Block[]
  readonly black: boolean
}

/** Columns that a body of text is set in: no line longer than can be read. */
export const columnsIn = (wideMm: number): number => (wideMm > 340 ? 3 : wideMm > 230 ? 2 : 1)

/** A list as pages. */
export function listPages({ paper, titles, title, blocks, black }: ListAsked, type: Type): readonly Page[] {
  const room = roomOn(paper)
  const body = { ...room, highMm: room.highMm - footMm(paper.typeMm) }
  const all = [heading(title), ...titles.cautions.map((text) => words(text, true)), ...blocks]
  const laid = flow(all, type, paper.typeMm, body, columnsIn(body.wideMm))
  return laid.map((marks, n) => {
    const foot = runningFoot(titles, `Page ${n + 1} of ${laid.length}`, type, paper.typeMm, room)
    const whole = [...marks, ...foot]
    const { wideMm, highMm } = paper
    return { wideMm, highMm, name: `Page ${n + 1}`, marks: black ? inBlack(whole) : whole }
  })
}
