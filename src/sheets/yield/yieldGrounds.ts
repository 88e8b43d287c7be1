import { computed } from '@preact/signals'
import { showCount } from '../show/figures.ts'
import { weeks } from '../state/weeks.ts'
import { yielded } from '../state/yields.ts'

/** What the Yield sheet's figures rest on. */
export const yieldGrounds = computed<string | null>(() => {
  const view = yielded.value
  if (!view || view.bedsPicked === 0) return null
  const told = view.seasons.map((season) => weeks.value.get(season))
  const picks = told.reduce(
    (sum, season) => sum + (season?.reduce((all, week) => all + week.picks, 0) ?? Number.NaN),
    0,
  )
  if (view.of === null && Number.isNaN(picks)) return null
  const beds = `${showCount(view.bedsPicked)} ${view.bedsPicked === 1 ? 'bed' : 'beds'}`
  return view.of === null
    ? `Figures rest on ${showCount(picks)} picks in ${beds}.`
    : `Figures rest on picks in ${beds}.`
})
