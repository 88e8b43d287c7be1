import { computed, signal } from '@preact/signals'
import { ask } from './door.ts'
import { layers } from './shown.ts'

/** Where each planting was told to be, by its id; null until the desk has told it. */
const places = signal<ReadonlyMap<string, { readonly row: string | null; readonly bed: string | null }> | null>(null)

export async function askPlantings(): Promise<void> {
  const reply = await ask('listRecords', { kind: 'plantings' })
  if (!reply.ok) return
  const text = (value: unknown) => (typeof value === 'string' ? value : null)
  places.value = new Map(reply.value.map(({ id, row, bed }) => [id, { row: text(row), bed: text(bed) }]))
}

/** The bed of each row, as the map has them on the day shown. */
export const bedOfRow = computed<ReadonlyMap<string, string>>(
  () => new Map(layers.value?.rows.features.map(({ properties }) => [properties.id, properties.bed])),
)

/** The bed of each planting: its own, or its row's. */
export const bedOfPlanting = computed<ReadonlyMap<string, string>>(() => {
  const found = new Map<string, string>()
  for (const [id, { row, bed }] of places.value ?? []) {
    const of = bed ?? (row === null ? undefined : bedOfRow.value.get(row))
    if (of !== undefined) found.set(id, of)
  }
  return found
})
