import type { Span } from '../plane/within.ts'
import type { Stand } from './stand.ts'

type Place = Pick<Stand, 'bed' | 'row' | 'span' | 'along' | 'back'>

/** Stretches that meet in less than a centimetre share no ground. */
export const MEET_M = 0.01

/**
 * The ground that two plantings share, as metres along the first one's row (or bed's middle); null where they share none.
 * They do where their stretches of the same row overlap, and where one takes the whole width of the bed: then it meets
 * every row of it.
 */
export function sharedGround(a: Place, b: Place): Span | null {
  if (a.bed !== b.bed) return null
  if (a.row === b.row) return overlap(a.span, b.span)
  if (a.row !== null && b.row !== null) return null
  const met = overlap(a.along, b.along)
  if (!met) return null
  const shift = a.span[0] - a.along[0]
  return a.back ? [a.span[0] + a.along[1] - met[1], a.span[0] + a.along[1] - met[0]] : [met[0] + shift, met[1] + shift]
}

function overlap(a: Span, b: Span): Span | null {
  const [from, to] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])]
  return to - from > MEET_M ? [from, to] : null
}
