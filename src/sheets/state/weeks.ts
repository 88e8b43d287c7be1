import { batch, signal } from '@preact/signals'
import type { PickWeek } from '../../desk/door.ts'
import { ask } from './door.ts'
import { whenFarmLeft } from './leaving.ts'

/** Picks by week, of each season asked for so far. */
export const weeks = signal<ReadonlyMap<number, readonly PickWeek[]>>(new Map())
/** The seasons of them that no step has changed since. */
export const freshWeeks = signal<ReadonlySet<number>>(new Set())

/** What is being asked for. */
const coming = new Map<number, Promise<readonly PickWeek[]>>()

/** Gives them at once where they are fresh; an effect that asks for them asks again when they are not. */
export function askWeeks(season: number): Promise<readonly PickWeek[]> {
  if (freshWeeks.value.has(season)) return Promise.resolve(weeks.value.get(season)!)
  const already = coming.get(season)
  if (already) return already
  const asked = ask('pickWeeks', { season }).then((reply) => {
    // A step may have changed them meanwhile, or another farm been opened.
    const isNewest = coming.get(season) === asked
    if (isNewest) coming.delete(season)
    if (!reply.ok) return []
    if (!isNewest) return reply.value
    batch(() => {
      weeks.value = new Map([...weeks.value, [season, reply.value]])
      freshWeeks.value = new Set([...freshWeeks.value, season])
    })
    return reply.value
  })
  coming.set(season, asked)
  return asked
}

/** Picks have changed: weeks are shown as they were until they have been asked for again. */
export function weeksAreStale(): void {
  coming.clear()
  freshWeeks.value = new Set()
}

/** Another farm is open. */
whenFarmLeft(() => {
  weeks.value = new Map()
  weeksAreStale()
})
