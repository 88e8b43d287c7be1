import type { Box, Mark } from '../marks.ts'

/** A column of a printed table. */
export interface PrintColumn {
  readonly head: string
  /** Numbers stand at the right. */
  readonly number: boolean
}

/** A line of a printed table: a heading over the lines below it, or cells. */
export type PrintRow = { readonly heading: string } | { readonly cells: readonly string[] }

export interface PrintTable {
  /** Told again, with "continued", where the table goes on in another column or on another page. */
  readonly caption: string
  readonly columns: readonly PrintColumn[]
  readonly rows: readonly PrintRow[]
  /** An empty box before every line, to be ticked by hand. */
  readonly ticked: boolean
}

/** A map within a list's page: `draw` is given the box that it has on the page. */
export interface MapInset {
  readonly highMm: number
  readonly draw: (box: Box) => readonly Mark[]
  readonly caption: string | null
}

/** What a printed list is composed of, in order. */
export type Block =
  | { readonly block: 'heading'; readonly text: string; readonly small: boolean }
  | { readonly block: 'words'; readonly text: string; readonly soft: boolean }
  /** The figure that matters, large, its grounds under it. */
  | { readonly block: 'figure'; readonly value: string; readonly unit: string; readonly words: string }
  | { readonly block: 'list'; readonly items: readonly string[] }
  | { readonly block: 'table'; readonly table: PrintTable }
  | { readonly block: 'map'; readonly map: MapInset }
  /** Marks from the upper left corner, shrunk where they are wider than the column. */
  | {
      readonly block: 'chart'
      readonly wideMm: number
      readonly highMm: number
      readonly marks: readonly Mark[]
    }
  /** Empty ruled lines to write on. */
  | { readonly block: 'lines'; readonly count: number }
  /** What follows starts on a new page: one page a bed, say. */
  | { readonly block: 'page' }

export const heading = (text: string, small = false): Block => ({ block: 'heading', text, small })
export const words = (text: string, soft = false): Block => ({ block: 'words', text, soft })
