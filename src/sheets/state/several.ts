import { signal } from '@preact/signals'
import type { Thing } from '../../map/farmMap.ts'

/** What is selected together. */
export const several = signal<readonly Thing[]>([])
/** Whether a finger draws a box, while several are being selected, where it would move the map. */
export const boxing = signal(false)

const same = (a: Thing, b: Thing) => a.kind === b.kind && a.id === b.id

/** Takes things in; one that is in already is left out again where that is asked. */
export function takeIn(things: readonly Thing[], how: 'toggle' | 'add'): void {
  let now = several.value
  for (const thing of things) {
    const there = now.some((one) => same(one, thing))
    if (!there) now = [...now, thing]
    else if (how === 'toggle') now = now.filter((one) => !same(one, thing))
  }
  several.value = withoutParts(now)
}

/** A box over beds takes their field or their rows in with them only where these are meant alone: rows go with their bed. */
function withoutParts(things: readonly Thing[]): readonly Thing[] {
  const kinds = new Set(things.map(({ kind }) => kind))
  return kinds.has('beds') && things.length > 1 ? things.filter(({ kind }) => kind !== 'rows') : things
}

export function forgetSeveral(): void {
  several.value = []
  boxing.value = false
}
