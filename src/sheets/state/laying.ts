import { signal } from '@preact/signals'
import type { Thing } from '../../map/farmMap.ts'
import { chosen } from './chosen.ts'
import { dropPending, layDown } from './drawing.ts'
import { farmMap } from './mapHandle.ts'
import { showPane } from './pane.ts'

/** What is being laid out: beds in a field, or rows in beds. */
export type Laying =
  | { readonly do: 'beds'; readonly field: string }
  | { readonly do: 'rows'; readonly beds: readonly string[] }

export const laying = signal<Laying | null>(null)

export function startLaying(what: Laying): void {
  layDown()
  dropPending()
  laying.value = what
  showPane('card')
  // On a phone the map is lower now: its new size is known a frame later.
  if (what.do === 'beds') requestAnimationFrame(() => farmMap.value?.fitTo({ kind: 'fields', id: what.field }))
}

export function stopLaying(): void {
  laying.value = null
  void farmMap.value?.setProposed(null)
  if (!chosen.value) showPane('map')
}

/** While rows are laid a tap on a bed takes it in or leaves it out; while beds are, a tap means nothing. True where the tap was meant so. */
export function tapWhileLaying(thing: Thing | null, bed: string | null): boolean {
  const now = laying.value
  if (!now) return false
  const id = thing?.kind === 'beds' ? thing.id : bed
  if (now.do === 'rows' && id !== null) toggleBed(id)
  return true
}

export function toggleBed(id: string): void {
  const now = laying.value
  if (now?.do !== 'rows') return
  const beds = now.beds.includes(id) ? now.beds.filter((one) => one !== id) : [...now.beds, id]
  laying.value = { ...now, beds }
}
