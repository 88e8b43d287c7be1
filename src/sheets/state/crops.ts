import { signal } from '@preact/signals'
import type { Crop } from '../../../geo/model/crops.ts'
import type { Variety } from '../../../geo/model/varieties.ts'
import { ask } from './door.ts'
import { showPane } from './pane.ts'

/** The farm's crops and their varieties; null until the desk has told them. */
export const crops = signal<readonly Crop[] | null>(null)
export const varieties = signal<readonly Variety[]>([])

export async function askCrops(): Promise<void> {
  const [told, kinds] = await Promise.all([
    ask('listRecords', { kind: 'crops' }),
    ask('listRecords', { kind: 'varieties' }),
  ])
  if (kinds.ok) varieties.value = kinds.value as readonly unknown[] as readonly Variety[]
  if (told.ok) crops.value = told.value as readonly unknown[] as readonly Crop[]
}

/** The crop whose form is open: its id, or 'new' for one that is yet to be told of. */
export const cropOpen = signal<string | null>(null)

export function openCrop(id: string | null): void {
  cropOpen.value = id
  showPane(id === null ? 'table' : 'card')
}
