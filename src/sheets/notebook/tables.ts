import type { AnyRecord } from '../../../geo/model/kind.ts'
import { KINDS, kindNamed } from '../../../geo/model/kinds.ts'
import { tableForPeople } from '../../../geo/notebook/tableForPeople.ts'
import { saveFile } from '../frame/saveFile.ts'
import { ask } from '../state/door.ts'
import { openFarm } from '../state/farm.ts'

/** A table of every kind of record, in the order that people look for them, with what they are called. */
export const TABLES: readonly { readonly kind: string; readonly words: string }[] = [
  { kind: 'picks', words: 'Picks' },
  { kind: 'shares', words: 'Shares of picks' },
  { kind: 'plantings', words: 'Plantings' },
  { kind: 'dressings', words: 'Dressings' },
  { kind: 'observations', words: 'What was seen' },
  { kind: 'stock_lots', words: 'Stock lots' },
  { kind: 'stock_moves', words: 'Stock moves' },
  { kind: 'supports', words: 'Supports' },
  { kind: 'support_work', words: 'Work on supports' },
  { kind: 'fields', words: 'Fields' },
  { kind: 'beds', words: 'Beds' },
  { kind: 'rows', words: 'Rows' },
  { kind: 'trees', words: 'Trees' },
  { kind: 'structures', words: 'Structures' },
  { kind: 'crops', words: 'Crops' },
  { kind: 'varieties', words: 'Varieties' },
  { kind: 'containers', words: 'Containers' },
  { kind: 'systems', words: 'Support systems' },
  { kind: 'system_parts', words: 'Parts of systems' },
  { kind: 'system_work', words: 'Work on systems' },
  { kind: 'stores', words: 'Parts in store' },
  { kind: 'siting_plans', words: 'Siting plans' },
  { kind: 'corrections', words: 'Corrections' },
  { kind: 'photos', words: 'Aerial photos' },
]

/** What a record is called where others refer to it: its name, or its plants, crop and the like; else null. */
function nameIn(records: ReadonlyMap<string, ReadonlyMap<string, AnyRecord>>) {
  const nameOf = (kind: string, id: string): string | null => {
    const record = records.get(kind)?.get(id)
    if (!record) return null
    if (kind === 'plantings') {
      const variety = records.get('varieties')?.get(String(record.variety))
      const crop = variety && records.get('crops')?.get(String(variety.crop))
      return [crop?.name, variety?.name, record.set_out].filter(Boolean).join(', ')
    }
    if (kind === 'rows') {
      const bed = records.get('beds')?.get(String(record.bed))
      return [bed?.name, record.name ?? record.side].filter(Boolean).join(' ')
    }
    if (kind === 'supports') {
      const system = records.get('systems')?.get(String(record.system))
      return [system?.name, record.put_up].filter(Boolean).join(', ')
    }
    const name = record.name ?? record.kind ?? record.species
    return typeof name === 'string' ? name : null
  }
  return nameOf
}

/** Hands one table over as a CSV for a spreadsheet; null when done, else what went wrong. */
export async function saveTable(kindName: string): Promise<string | null> {
  const kind = kindNamed(kindName)
  const needed = new Set([kindName, ...refersOf(kindName)])
  // What a planting or a row is called is told by what it refers to in turn.
  for (const name of [...needed]) for (const more of refersOf(name)) needed.add(more)
  if (needed.has('varieties')) needed.add('crops')
  const told = new Map<string, ReadonlyMap<string, AnyRecord>>()
  for (const name of needed) {
    const reply = await ask('listRecords', { kind: name })
    if (!reply.ok) return reply.fault.detail
    told.set(name, new Map(reply.value.map((record) => [record.id, record])))
  }
  const csv = tableForPeople(kind, [...told.get(kindName)!.values()], nameIn(told))
  const farm = (openFarm.value?.farm.name ?? '').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'farm'
  // The mark tells spreadsheets that this is UTF-8.
  saveFile(`${farm}-${kindName.replaceAll('_', '-')}.csv`, new Blob([`\uFEFF${csv}`], { type: 'text/csv' }))
  return null
}

const refersOf = (name: string) =>
  Object.values(KINDS.find((kind) => kind.name === name)?.fields ?? {}).flatMap(({ refers }) => refers ?? [])
