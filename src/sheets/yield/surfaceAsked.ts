import { computed } from '@preact/signals'
import { measured } from '../state/shown.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { type AskedPoints, type AskedSurface, cellFor, pointMethod, yieldStale } from '../state/yields.ts'

const cellHere = computed(() => cellFor((measured.value?.beds ?? []).reduce((sum, bed) => sum + bed.area_m2, 0)))

/** What is asked of the surface now. */
export const surfaceAsked = (): AskedSurface => ({
  ground: yieldGround.value,
  cellM: cellHere.value,
  step: yieldStale.value,
})

/** What is asked of the surface between places now. */
export const pointsAsked = (): AskedPoints => ({ ...surfaceAsked(), method: pointMethod.value })
