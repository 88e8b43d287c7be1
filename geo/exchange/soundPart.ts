import type { AnyRecord, Kind } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import type { Draft, Fault } from './archive.ts'
import { shown } from './faults.ts'

/** The records that can be loaded, by kind, and one entry for every record that is left out, with why. */
export interface SoundPart {
  readonly records: Map<string, AnyRecord[]>
  readonly leftOut: Fault[]
}

/**
 * The drafts without a fault that refer only to such drafts. `unreadable`: kinds whose whole file could not be read.
 */
export function soundPart(drafts: readonly Draft[], unreadable: ReadonlySet<string>): SoundPart {
  const records = new Map<string, AnyRecord[]>()
  const leftOut: Fault[] = []
  const sound = new Map<string, Set<string>>(KINDS.map((kind) => [kind.name, new Set()]))
  const byKind = new Map<Kind, Draft[]>(KINDS.map((kind) => [kind, []]))
  for (const draft of drafts) byKind.get(draft.kind)!.push(draft)
  for (const kind of KINDS) {
    const kept: AnyRecord[] = []
    for (const draft of byKind.get(kind)!) {
      const fault = draft.fault ?? brokenBy(draft, sound, unreadable)
      if (fault) {
        leftOut.push(fault)
        continue
      }
      kept.push(draft.record)
      sound.get(kind.name)!.add(draft.record.id)
    }
    if (kept.length > 0) records.set(kind.name, kept)
  }
  return { records, leftOut }
}

/** Why a draft goes with one that it refers to, or null. Kinds come after those they refer to. */
function brokenBy(
  draft: Draft,
  sound: ReadonlyMap<string, ReadonlySet<string>>,
  unreadable: ReadonlySet<string>,
): Fault | null {
  for (const [name, { refers }] of Object.entries(draft.kind.fields)) {
    const value = draft.record[name]
    if (!refers || typeof value !== 'string' || sound.get(refers)!.has(value)) continue
    const file = KINDS.find((kind) => kind.name === refers)!.file
    const why = unreadable.has(refers) ? `${file} could not be read` : 'it was left out'
    return { file: draft.kind.file, record: draft.where, field: name, reason: `refers to ${shown(value)}, and ${why}` }
  }
  if (draft.kind.name === 'picks' && draft.record.kg_per_unit === null) {
    const reason = `is ${shown(draft.record.unit)}, and the container that would weigh it was left out`
    return { file: draft.kind.file, record: draft.where, field: 'unit', reason }
  }
  return null
}
