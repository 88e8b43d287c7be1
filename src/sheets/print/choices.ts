import { signal } from '@preact/signals'
import { type Lie, PAPERS, type PaperName } from '../../print/paper.ts'

/** What is on the map: all of the farm, what the screen shows, or one field. */
export type Extent = 'farm' | 'view' | { readonly field: string }

/** How a person wants it on paper. */
export interface Choices {
  readonly paper: PaperName
  readonly lie: Lie
  readonly extent: Extent
  /** N of 1:N; null for the largest standard one that fits. */
  readonly scale: number | null
  readonly turned: boolean
  readonly withMap: boolean
  readonly withTable: boolean
  readonly withLegend: boolean
  readonly withPhotos: boolean
  readonly black: boolean
  readonly dpi: number
}

const KEPT = 'selion.print'

const FIRST: Choices = {
  paper: 'A4',
  lie: 'landscape',
  extent: 'farm',
  scale: null,
  turned: false,
  withMap: true,
  withTable: true,
  withLegend: true,
  withPhotos: true,
  black: false,
  dpi: 200,
}

/** Letter where it is the paper of the country, A4 elsewhere. */
const LETTER_LANDS = /-(?:US|CA|MX|PH|CL|CO|VE|GT|CR)\b/

function atFirst(): Choices {
  const paper: PaperName = LETTER_LANDS.test(navigator.language) ? 'Letter' : 'A4'
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? '{}') as Partial<Record<'paper' | 'lie' | 'black', unknown>>
    return {
      ...FIRST,
      paper: PaperNames.find((name) => name === kept.paper) ?? paper,
      lie: kept.lie === 'portrait' ? 'portrait' : 'landscape',
      black: kept.black === true,
    }
  } catch {
    return { ...FIRST, paper }
  }
}
const PaperNames = Object.keys(PAPERS) as PaperName[]

export const choices = signal<Choices>(atFirst())

/** Paper, how it lies and its ink are kept for the next time; the rest is for this sheet. */
export function choosePrint(to: Partial<Choices>): void {
  choices.value = { ...choices.value, ...to }
  const { paper, lie, black } = choices.value
  localStorage.setItem(KEPT, JSON.stringify({ paper, lie, black }))
}
