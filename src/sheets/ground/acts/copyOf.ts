import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { Edit } from '../../../desk/door.ts'

/** The edit that adds a record like another, with an id of its own and what is told differently. */
export function copyOf(kind: string, record: AnyRecord, id: string, to: Readonly<Record<string, unknown>>): Edit {
  const { ord: _, ...plain } = record as AnyRecord & { ord?: unknown }
  return { do: 'add', kind, record: { ...plain, ...to, id } }
}
