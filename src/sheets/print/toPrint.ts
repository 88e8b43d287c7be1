import { signal } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { Block } from '../../print/page/blocks.ts'

/** What a list may ask for while it is composed. */
export interface ListTools {
  /**
   * A map of some places, as the sheet draws it now, `highMm` high and as wide as the column. Where `named` tells beds by
   * their ids, these bear their names at any scale, and no other bed does; `marks` are points with a letter.
   */
  map(
    places: readonly LonLat[],
    highMm: number,
    caption: string | null,
    named?: readonly string[] | null,
    marks?: readonly { readonly letter: string; readonly at: LonLat }[],
  ): Block
}

/** A list to be printed: its title, what to be careful of, and its blocks. */
export interface PrintedList {
  readonly title: string
  readonly cautions: readonly string[]
  compose(tools: ListTools): readonly Block[]
}

/** What the print dialog is open for: the sheet that is shown, a list, or nothing. */
export const toPrint = signal<'sheet' | PrintedList | null>(null)

/** Opens the print dialog, where paper is chosen and the pages are seen before they are saved. */
export function print(what: 'sheet' | PrintedList): void {
  toPrint.value = what
}
