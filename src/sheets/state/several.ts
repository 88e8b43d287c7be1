import { signal } from '@preact/signals'
import type { Thing } from '../../map/farmMap.ts'
import { layers } from './shown.ts'

/** What is selected together. */
export const several = signal<readonly Thing[]>([])
/** Whether taps select several, on the map and in tables. */
export const selecting = signal(false)
/** Whether a finger draws a box, while several are being selected, where it would move the map. */
export const boxing = signal(false)

const same = (a: Thing, b: Thing) => a.kind === b.kind && a.id === b.id

/** Takes things in; one that is in already is left out again where that is asked. */
export function takeIn(things: readonly Thing[], how: 'toggle' | 'add'): void {
  let now = several.value
  for (const tapped of things) {
    const thing = how === 'toggle' && now.some(({ kind }) => kind === 'beds') ? bedMeant(tapped) : tapped
    const there = now.some((one) => same(one, thing))
    if (!there) now = [...now, thing]
    else if (how === 'toggle') now = now.filter((one) => !same(one, thing))
  }
  several.value = withoutParts(now)
}

/** Among beds, a tap on a row means the bed that it lies in. */
function bedMeant(thing: Thing): Thing {
  if (thing.kind !== 'rows') return thing
  const row = layers.value?.rows.features.find(({ properties }) => properties.id === thing.id)
  return row ? { kind: 'beds', id: row.properties.bed } : thing
}

/** A box over beds takes in no rows: they go with their bed. */
function withoutParts(things: readonly Thing[]): readonly Thing[] {
  const kinds = new Set(things.map(({ kind }) => kind))
  return kinds.has('beds') && things.length > 1 ? things.filter(({ kind }) => kind !== 'rows') : things
}

export function forgetSeveral(): void {
  several.value = []
  boxing.value = false
}
