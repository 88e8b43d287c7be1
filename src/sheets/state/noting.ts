import { computed, effect, signal } from '@preact/signals'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { chosen } from './chosen.ts'
import { openFarm } from './farm.ts'
import { newId } from './newId.ts'
import { showPane } from './pane.ts'

/** What is being noted: something seen, or what was put on a bed; of a place, or a record that is put right. */
export interface Noting {
  readonly key: string
  readonly of: 'observations' | 'dressings'
  readonly bed: string | null
  readonly at: LonLat | null
  readonly correcting: AnyRecord | null
}

/** The note whose form stands in the card's place; null while there is none. */
export const noting = signal<Noting | null>(null)

/** What was begun on one farm means nothing on another. */
const farmInHand = computed(() => openFarm.value?.entry.id)
effect(() => {
  farmInHand.value
  noting.value = null
})

export function startNoting(what: Omit<Noting, 'key'>): void {
  noting.value = { ...what, key: newId() }
  showPane('card')
}

export function stopNoting(): void {
  noting.value = null
  if (!chosen.value) showPane('map')
}
