import { computed } from '@preact/signals'
import type { DeskFault } from '../../desk/door.ts'
import { openFarm } from '../state/farm.ts'
import { doEdits } from '../state/steps.ts'

/** Who belongs to which household, by name; kept in the farm's record beside the format's own fields. */
export type Households = ReadonlyMap<string, string>

const FIELD = 'households'

/** Reads what a farm's record tells beside its own fields; what is no name is left out. */
export function householdsIn(extra: Readonly<Record<string, unknown>>): Households {
  const told = extra[FIELD]
  if (typeof told !== 'object' || told === null || Array.isArray(told)) return new Map()
  return new Map(Object.entries(told).filter((one): one is [string, string] => typeof one[1] === 'string'))
}

export const households = computed(() => householdsIn(openFarm.value?.farm.extra ?? {}))

/** Puts a person to a household, or with null to none, as one step; the fault where that is not kept. */
export async function belongTo(person: string, household: string | null): Promise<DeskFault | null> {
  const extra = openFarm.value?.farm.extra ?? {}
  const next = new Map(households.value)
  if (household === null) next.delete(person)
  else next.set(person, household)
  const { [FIELD]: _, ...others } = extra
  const to = next.size > 0 ? { ...others, [FIELD]: Object.fromEntries(next) } : others
  const label = household === null ? `${person} shares alone` : `${person} shares with ${household}`
  const reply = await doEdits(label, [{ do: 'change', kind: 'farm', id: 'farm', to: { extra: to } }])
  return reply.ok ? null : reply.fault
}
