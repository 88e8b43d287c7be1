import { computed, signal } from '@preact/signals'
import type { Planting } from '../../../geo/model/plantings.ts'
import { ask } from './door.ts'
import { layers } from './shown.ts'

/** Every planting of the farm, past, standing and planned; null until the desk has told them. */
export const plantings = signal<readonly Planting[] | null>(null)

export async function askPlantings(): Promise<void> {
  const reply = await ask('listRecords', { kind: 'plantings' })
  if (reply.ok) plantings.value = reply.value as readonly unknown[] as readonly Planting[]
}

/** The bed of each row, as the map has them on the day shown. */
export const bedOfRow = computed<ReadonlyMap<string, string>>(
  () => new Map(layers.value?.rows.features.map(({ properties }) => [properties.id, properties.bed])),
)

/** The bed of each planting: its own, or its row's. */
export const bedOfPlanting = computed<ReadonlyMap<string, string>>(() => {
  const found = new Map<string, string>()
  for (const { id, row, bed } of plantings.value ?? []) {
    const of = bed ?? (row === null ? undefined : bedOfRow.value.get(row))
    if (of !== undefined) found.set(id, of)
  }
  return found
})
