import type { AnyRecord } from '../../model/kind.ts'
import { kindNamed } from '../../model/kinds.ts'
import { blankDraft, type Draft, type Fault } from '../archive.ts'
import { type Faults, shown } from '../faults.ts'
import { type FindHolder, holderAmong } from './holder.ts'

const HELD = [
  { kind: 'beds', by: 'fields', field: 'field', word: 'field' },
  { kind: 'rows', by: 'beds', field: 'bed', word: 'bed' },
] as const

/**
 * Puts each bed into its field and each row into its bed: by the id that it names, else by the name, else by where it
 * lies. Support systems are found by id or name; one that is not there is made by its name. Drafts of made systems are put
 * before the others. What was done is noted.
 */
export function putInHolders(
  drafts: Draft[],
  known: ReadonlyMap<string, readonly AnyRecord[]>,
  fileOf: (draft: Draft) => string,
  faults: Faults,
): Fault[] {
  const notes: Fault[] = []
  for (const rule of HELD) {
    const holders = [
      ...(known.get(rule.by) ?? []),
      ...drafts.filter((d) => d.kind.name === rule.by).map((d) => d.record),
    ]
    const ids = new Set(holders.map(({ id }) => id))
    const byName = namesOf(holders)
    let find: FindHolder | null = null
    for (const draft of drafts) {
      if (draft.kind.name !== rule.kind) continue
      const told = draft.record[rule.field]
      if (typeof told === 'string' && ids.has(told)) continue
      const named = typeof told === 'string' ? byName.get(told.trim().toLowerCase()) : undefined
      if (named) {
        draft.record[rule.field] = named
        continue
      }
      find ??= holderAmong(holders)
      const holder = draft.record.geom ? find(draft.record.geom) : null
      const note = (reason: string) =>
        notes.push({ file: fileOf(draft), record: draft.where, field: rule.field, reason })
      if (!holder) {
        if (typeof told !== 'string' && !draft.unread.has(rule.field) && draft.record.geom)
          faults.of(draft, rule.field, `is missing, and it lies in no ${rule.word} that is known`)
        continue
      }
      draft.record[rule.field] = holder.id
      if (typeof told === 'string')
        note(`is ${shown(told)}, which is not known; put into ${shown(nameOf(holder))}, where it lies`)
    }
  }
  notes.push(...findSystems(drafts, known, fileOf))
  return notes
}

function findSystems(
  drafts: Draft[],
  known: ReadonlyMap<string, readonly AnyRecord[]>,
  fileOf: (draft: Draft) => string,
): Fault[] {
  const systems = known.get('systems') ?? []
  const ids = new Set(systems.map(({ id }) => id))
  const byName = namesOf(systems)
  const made = new Map<string, Draft>()
  const notes: Fault[] = []
  for (const draft of drafts) {
    const told = draft.kind.name === 'supports' ? draft.record.system : null
    if (typeof told !== 'string' || ids.has(told)) continue
    const named = byName.get(told.trim().toLowerCase())
    if (named) draft.record.system = named
    else if (!made.has(told)) {
      const system = blankDraft(kindNamed('systems'), `system ${told}`, told)
      system.record.name = told
      made.set(told, system)
      const reason = `the support system ${shown(told)} was made by its name`
      notes.push({ file: fileOf(draft), record: '', field: 'system', reason })
    }
  }
  drafts.unshift(...made.values())
  return notes
}

/** Ids by name in small letters, where a name is one record's alone. */
function namesOf(records: readonly AnyRecord[]): Map<string, string> {
  const names = new Map<string, string>()
  const twice = new Set<string>()
  for (const record of records) {
    const name = nameOf(record).trim().toLowerCase()
    if (names.has(name)) twice.add(name)
    names.set(name, record.id)
  }
  for (const name of twice) names.delete(name)
  return names
}

const nameOf = (record: AnyRecord): string => (typeof record.name === 'string' ? record.name : record.id)
