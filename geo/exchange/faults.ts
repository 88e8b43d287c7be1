import { type Draft, FARM_FILE, type Fault, FILES } from './archive.ts'

/** Gathers faults, file by file, and marks the records that have them. */
export interface Faults {
  /** A fault of a whole file, or of a place in it that is no record. */
  ofFile(file: string, reason: string, record?: string, field?: string): void
  /** A fault of a record: it can't be loaded. */
  of(draft: Draft, field: string, reason: string): void
  all(): Fault[]
  /** Faults by which the whole of a file, or lines of it, went that can't be told record by record; none of them cut. */
  lost(): Fault[]
}

/** So many faults of a file are listed for a page. */
export const MOST_LISTED = 1000

/** Faults of a file beyond `most` are counted and not listed. */
export function gatherFaults(most = MOST_LISTED): Faults {
  const listed = new Map<string, Fault[]>()
  const counted = new Map<string, number>()
  const lost: Fault[] = []
  const add = (fault: Fault) => {
    const list = listed.get(fault.file) ?? []
    listed.set(fault.file, list)
    counted.set(fault.file, (counted.get(fault.file) ?? 0) + 1)
    if (list.length < most) list.push(fault)
  }
  return {
    ofFile: (file, reason, record = '', field = '') => {
      const fault = { file, record, field, reason }
      if (file !== FARM_FILE) lost.push(fault)
      add(fault)
    },
    of: (draft, field, reason) => {
      const fault = { file: draft.kind.file, record: draft.where, field, reason }
      draft.fault ??= fault
      draft.unread = new Set([...draft.unread, field])
      add(fault)
    },
    all: () =>
      byFile(
        [...listed].flatMap(([file, list]) => {
          const more = counted.get(file)! - list.length
          const rest = { file, record: '', field: '', reason: `and ${more} more faults in this file` }
          return more > 0 ? [...list, rest] : list
        }),
      ),
    lost: () => [...lost],
  }
}

/** Faults in the order of the archive's files; within a file as they were found. */
export function byFile(faults: readonly Fault[]): Fault[] {
  return [...faults].sort((a, b) => FILES.indexOf(a.file) - FILES.indexOf(b.file))
}

/** A value as a fault shows it: quoted where it is text, cut where it is long. */
export function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value)
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}
