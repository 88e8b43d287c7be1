import { computed, signal } from '@preact/signals'
import type { DeskFault } from '../../desk/door.ts'
import type { YieldShown } from '../yield/rampOf.ts'
import { ask, type Yielded } from './door.ts'
import { latest } from './latest.ts'

export const yieldShown = signal<YieldShown>('index')

/** Standard deviation of the smoothing, in metres. */
export const smoothM = signal(1.5)
export const CELL_M = 1

export const yielded = signal<Yielded | null>(null)
export const yieldFault = signal<DeskFault | null>(null)
export const yieldBusy = signal(false)
/** Counts up when a step may have changed what was reckoned. */
export const yieldStale = signal(0)
export const chosenZone = signal<string | null>(null)
export const zoneChosen = computed(() => yielded.value?.zones.find(({ id }) => id === chosenZone.value) ?? null)

/** Reckons a season's yield; of many asked in haste the last is shown. */
export const askYield = latest(async (asked: { readonly season: number; readonly smoothM: number }) => {
  yieldBusy.value = true
  const reply = await ask('yield', { ...asked, seasons: [], of: null, cellM: CELL_M })
  yieldBusy.value = false
  yieldFault.value = reply.ok ? null : reply.fault
  yielded.value = reply.ok ? reply.value : null
})

export function yieldIsStale(): void {
  yieldStale.value += 1
}

export function forgetYields(): void {
  yielded.value = null
  yieldFault.value = null
  chosenZone.value = null
}
