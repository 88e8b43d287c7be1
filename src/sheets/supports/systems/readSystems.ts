import type { System, SystemPart, SystemWork } from '../../../../geo/model/systems.ts'
import { ask } from '../../state/door.ts'
import type { KnownSystem } from './draft.ts'

/** The farm's systems with their parts and work, in the order they were made. */
export async function readSystems(): Promise<readonly KnownSystem[]> {
  const [systems, parts, work] = await Promise.all([
    ask('listRecords', { kind: 'systems' }),
    ask('listRecords', { kind: 'system_parts' }),
    ask('listRecords', { kind: 'system_work' }),
  ])
  if (!systems.ok || !parts.ok || !work.ok) return []
  const of = <R extends { readonly system: string }>(all: readonly unknown[], id: string) =>
    (all as readonly R[]).filter(({ system }) => system === id)
  return (systems.value as unknown as readonly System[]).map((system) => ({
    system,
    parts: of<SystemPart>(parts.value, system.id),
    work: of<SystemWork>(work.value, system.id),
  }))
}
