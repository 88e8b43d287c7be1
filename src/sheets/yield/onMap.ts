import { computed } from '@preact/signals'
import type { Surface, Zones } from '../../map/farmMap.ts'
import { choose } from '../state/chosen.ts'
import { showPane } from '../state/pane.ts'
import { chosenZone, yielded, yieldShown } from '../state/yields.ts'
import { surfaceOf } from './surfaceOf.ts'

/** The yield surface, once it is reckoned. */
export const surface = computed<Surface | null>(() =>
  yielded.value ? surfaceOf(yielded.value, yieldShown.value) : null,
)

/** Outlines of the low-yield zones. */
export const zones = computed<Zones | null>(() => {
  const features = yielded.value?.zones.map(({ id, outline }) => ({
    type: 'Feature' as const,
    geometry: outline,
    properties: { id },
  }))
  return features ? { type: 'FeatureCollection', features } : null
})

/** Opens a zone in the table, in place of any card. */
export function chooseZone(id: string | null): void {
  chosenZone.value = id
  if (id === null) return
  void choose(null)
  showPane('table')
}
