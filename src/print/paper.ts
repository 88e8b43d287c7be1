import type { Box } from './marks.ts'

/** Papers by name, standing: ISO 216 A sizes, and ANSI/ASME Y14.1 A (Letter) and B (Tabloid), in millimetres. */
export const PAPERS = {
  A4: { wideMm: 210, highMm: 297 },
  A3: { wideMm: 297, highMm: 420 },
  Letter: { wideMm: 215.9, highMm: 279.4 },
  Tabloid: { wideMm: 279.4, highMm: 431.8 },
} as const
export type PaperName = keyof typeof PAPERS
export type Lie = 'portrait' | 'landscape'

export interface Paper {
  readonly wideMm: number
  readonly highMm: number
  /** Left free on every side: more than most printers can't reach. */
  readonly marginMm: number
  /** Height of the plain words' letters, in millimetres of type size. */
  readonly typeMm: number
}

/** A paper as it lies. On the larger ones type is a fifth larger, to be read from as far as they hang. */
export function paperOf(name: PaperName, lie: Lie): Paper {
  const { wideMm, highMm } = PAPERS[name]
  const large = name === 'A3' || name === 'Tabloid'
  const size = lie === 'portrait' ? { wideMm, highMm } : { wideMm: highMm, highMm: wideMm }
  return { ...size, marginMm: large ? 12 : 10, typeMm: large ? 3.8 : 3.2 }
}

/** What the margins leave. */
export const roomOn = ({ wideMm, highMm, marginMm }: Paper): Box => ({
  xMm: marginMm,
  yMm: marginMm,
  wideMm: wideMm - 2 * marginMm,
  highMm: highMm - 2 * marginMm,
})
