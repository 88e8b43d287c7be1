import { KINDS } from '../model/kinds.ts'
import type { Draft } from './archive.ts'
import { type Faults, shown } from './faults.ts'

/** Drafts of each kind by id; of several with one id the first. */
export type Index = ReadonlyMap<string, ReadonlyMap<string, Draft>>

/** Drafts by kind and id. An id that comes again in its file is a fault of the later record. */
export function indexDrafts(drafts: readonly Draft[], faults: Faults): Index {
  const index = new Map<string, Map<string, Draft>>(KINDS.map((kind) => [kind.name, new Map()]))
  for (const draft of drafts) {
    const { id } = draft.record
    if (id === '') continue
    const known = index.get(draft.kind.name)!
    const earlier = known.get(id)
    if (earlier) faults.of(draft, 'id', `${shown(id)} is the id of ${earlier.where} already`)
    else known.set(id, draft)
  }
  return index
}

/** Tells every reference to a record that is not there; a file that could not be read may hold it, so it is not told for that. */
export function checkReferences(
  drafts: readonly Draft[],
  index: Index,
  unreadable: ReadonlySet<string>,
  faults: Faults,
): void {
  const files = new Map(KINDS.map((kind) => [kind.name, kind.file]))
  for (const draft of drafts)
    for (const [name, field] of Object.entries(draft.kind.fields)) {
      const value = draft.record[name]
      if (!field.refers || typeof value !== 'string' || draft.unread.has(name)) continue
      if (unreadable.has(field.refers) || index.get(field.refers)!.has(value)) continue
      faults.of(draft, name, `${shown(value)} is not in ${files.get(field.refers)}`)
    }
}
