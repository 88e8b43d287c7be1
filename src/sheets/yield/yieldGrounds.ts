import { computed } from '@preact/signals'
import { showCount } from '../show/figures.ts'
import { weeks } from '../state/weeks.ts'
import { season } from '../state/where.ts'
import { yielded } from '../state/yields.ts'

/** What the Yield sheet's figures rest on. */
export const yieldGrounds = computed<string | null>(() => {
  const view = yielded.value
  const picks = weeks.value.get(season.value)?.reduce((sum, week) => sum + week.picks, 0)
  if (!view || picks === undefined) return null
  const beds = view.bedsPicked
  return `Figures rest on ${showCount(picks)} picks in ${beds} ${beds === 1 ? 'bed' : 'beds'}.`
})
