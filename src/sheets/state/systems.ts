import { signal } from '@preact/signals'
import { ask } from './door.ts'

/** The farm's support systems, for naming a new run's. */
export const systems = signal<readonly { readonly id: string; readonly name: string }[]>([])

export async function askSystems(): Promise<void> {
  const reply = await ask('listRecords', { kind: 'systems' })
  if (reply.ok) systems.value = reply.value.map(({ id, name }) => ({ id, name: String(name) }))
}
