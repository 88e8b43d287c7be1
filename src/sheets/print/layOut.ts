import type { DrawnMap } from '../../map/farmMap.ts'
import type { Frame } from '../../print/frame.ts'
import { namingBeds } from '../../print/map/namingBeds.ts'
import type { Page } from '../../print/marks.ts'
import { insetMap } from '../../print/page/insetMap.ts'
import { listPages } from '../../print/page/listPages.ts'
import { sheetPages } from '../../print/page/sheetPages.ts'
import { paperOf } from '../../print/paper.ts'
import type { Type } from '../../print/type/openFonts.ts'
import { units } from '../state/farm.ts'
import { askSheet, planeNow, titlesNow } from './askSheet.ts'
import type { Choices } from './choices.ts'
import type { PrintedList } from './toPrint.ts'

export interface LaidOut {
  readonly pages: readonly Page[]
  /** Of each page, null for one without a map that fills it. */
  readonly frames: readonly (Frame | null)[]
  readonly scale: number | null
}

/** The sheet, or a list, as pages by the person's choices; or in words why not. */
export function layOut(
  what: 'sheet' | PrintedList,
  choices: Choices,
  drawn: DrawnMap,
  type: Type,
): LaidOut | { readonly fault: string } {
  if (what === 'sheet') return sheetPages(askSheet(choices, drawn), type)
  const plane = planeNow()
  const { black } = choices
  const without = { ...drawn, photos: [] }
  const pages = listPages(
    {
      paper: paperOf(choices.paper, choices.lie),
      titles: { ...titlesNow(), cautions: what.cautions },
      title: what.title,
      black,
      blocks: what.compose({
        map: (places, highMm, caption, named, marks = []) => {
          const extent = plane ? places.map((at) => plane.toMetres(at)) : []
          if (!plane || extent.length === 0) return { block: 'words', text: 'No place is known.', soft: true }
          const shown = named ? { ...without, layers: namingBeds(without.layers, named) } : without
          const lettered = marks.map(({ letter, at }) => ({ letter, at: plane.toMetres(at) }))
          const asked = { drawn: shown, plane, extent, marks: lettered, units: units.value, highMm, caption, black }
          return insetMap(asked, type)
        },
      }),
    },
    type,
  )
  return { pages, frames: pages.map(() => null), scale: null }
}
