import type { AnyRecord } from '../model/kind.ts'
import type { FarmContent } from './archive.ts'

/** The days between which a record of a kind stands; a day not known is open. */
const BETWEEN: Readonly<Record<string, readonly [from: string, to: string]>> = {
  beds: ['made', 'retired'],
  trees: ['planted', 'removed'],
  supports: ['put_up', 'taken_down'],
}

/**
 * The farm's records of some kinds as they stand on a day (null: of every day): rows go with their bed, observations are
 * those made until then.
 */
export function standsOn(content: FarmContent, kinds: readonly string[], day: string | null): FarmContent {
  const records = new Map<string, readonly AnyRecord[]>()
  for (const kind of kinds) {
    const all = content.records.get(kind) ?? []
    records.set(kind, day === null ? all : all.filter((record) => stands(content, kind, record, day)))
  }
  return { ...content, records, photos: new Map() }
}

function stands(content: FarmContent, kind: string, record: AnyRecord, day: string): boolean {
  if (kind === 'rows') {
    const bed = content.records.get('beds')?.find(({ id }) => id === record.bed)
    return !bed || stands(content, 'beds', bed, day)
  }
  if (kind === 'observations') return (record.on as string) <= day
  const between = BETWEEN[kind]
  if (!between) return true
  const [from, to] = between.map((field) => record[field] as string | null)
  return (!from || from <= day) && (!to || day < to)
}
