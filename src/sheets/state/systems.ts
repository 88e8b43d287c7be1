import { computed, signal } from '@preact/signals'
import { ask } from './door.ts'
import { runs } from './shown.ts'

/** The farm's support systems, for naming a new run's. */
export const systems = signal<readonly { readonly id: string; readonly name: string }[]>([])

/** Runs of each system that stand on the day. */
export const systemsUsed = computed<ReadonlyMap<string, number>>(() => {
  const counts = new Map<string, number>()
  for (const { system } of runs.value) counts.set(system, (counts.get(system) ?? 0) + 1)
  return counts
})

export async function askSystems(): Promise<void> {
  const reply = await ask('listRecords', { kind: 'systems' })
  if (reply.ok) systems.value = reply.value.map(({ id, name }) => ({ id, name: String(name) }))
}
