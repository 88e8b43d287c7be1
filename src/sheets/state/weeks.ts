import { signal } from '@preact/signals'
import type { PickWeek } from '../../desk/door.ts'
import { ask } from './door.ts'

/** Picks by week, of each season asked for so far. */
export const weeks = signal<ReadonlyMap<number, readonly PickWeek[]>>(new Map())

export async function askWeeks(season: number): Promise<readonly PickWeek[]> {
  const known = weeks.value.get(season)
  if (known) return known
  const reply = await ask('pickWeeks', { season })
  if (!reply.ok) return []
  weeks.value = new Map([...weeks.value, [season, reply.value]])
  return reply.value
}

/** Picks have changed: what was told of weeks is asked again. */
export function forgetWeeks(): void {
  weeks.value = new Map()
}
