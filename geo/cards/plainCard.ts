import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

const HIDDEN = new Set(['id', 'geom', 'extra', 'name', 'kind', 'outside_accepted'])

/** The card of a record that has no reckoning of its own: what is written of it. */
export async function plainCard(_db: Database, record: AnyRecord): Promise<CardBody> {
  const lines = Object.entries(record)
    .filter(([field, value]) => !HIDDEN.has(field) && value !== null && typeof value !== 'object')
    .map(([field, value]) => ({
      label: field.replaceAll('_', ' '),
      value: typeof value === 'number' ? value : String(value),
    }))
  const title = String(record.name ?? record.kind ?? record.id)
  return { title, subtitle: record.name && record.kind ? String(record.kind) : '', lines, tables: [] }
}
