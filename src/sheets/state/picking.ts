import { signal } from '@preact/signals'
import type { DeskFault, PickHabits, SeasonPicking } from '../../desk/door.ts'
import type { KnownContainer } from '../picking/containersFor.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

/** What is told of a season's picking up to a day. */
export const picking = signal<SeasonPicking | null>(null)
export const pickingFault = signal<DeskFault | null>(null)
/** Counts up when a step may have changed what was told. */
export const pickingStale = signal(0)

/** What the entry of a pick offers: habits, and the farm's containers. */
export const habits = signal<PickHabits | null>(null)
export const containers = signal<readonly (KnownContainer & { readonly id: string })[]>([])

export const askPicking = latest(async (asked: { readonly season: number; readonly on: string }) => {
  const reply = await ask('seasonPicking', asked)
  pickingFault.value = reply.ok ? null : reply.fault
  if (reply.ok) picking.value = reply.value
})

export const askHabits = latest(async (on: string) => {
  const [told, listed] = await Promise.all([ask('pickHabits', { on }), ask('listRecords', { kind: 'containers' })])
  if (listed.ok) containers.value = listed.value as unknown as (KnownContainer & { id: string })[]
  if (told.ok) habits.value = told.value
})

export function pickingIsStale(): void {
  pickingStale.value += 1
}

whenFarmLeft(() => {
  picking.value = null
  pickingFault.value = null
  habits.value = null
  containers.value = []
})
