import { computed } from '@preact/signals'
import { outcome, read } from './state.ts'

/** The worst point stands out where the others agree so many times better without it, and it is off by so many pixels. */
const STANDS_OUT = 3

/** The id of the worst point, where it stands out from the others; null where none does. */
export const badMark = computed((): string | null => {
  const now = outcome.value
  if (!now || typeof now === 'string') return null
  const { worst, withoutWorstM, rmseM, points } = now.fit
  if (worst === null || withoutWorstM === null || rmseM === null) return null
  const offM = points[worst]?.leftOutM ?? 0
  const isBad = rmseM > STANDS_OUT * withoutWorstM && offM > STANDS_OUT * now.placed.groundSampleM
  return isBad ? (read.value?.pointIds[worst] ?? null) : null
})
