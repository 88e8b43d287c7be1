import type { AnyRecord } from '../../../geo/model/kind.ts'

/** A kind of record and the fields by which its records stand on others. */
export interface Standing {
  readonly kind: string
  readonly refers: readonly { readonly field: string; readonly to: string }[]
}

/** How many records of each kind go when some are removed, those themselves not counted. */
export function goesToo(
  kinds: readonly Standing[],
  records: ReadonlyMap<string, readonly AnyRecord[]>,
  removed: readonly { readonly kind: string; readonly id: string }[],
): ReadonlyMap<string, number> {
  const gone = new Map<string, Set<string>>()
  for (const { kind, id } of removed) gone.set(kind, (gone.get(kind) ?? new Set()).add(id))
  for (let more = true; more; ) {
    more = false
    for (const { kind, refers } of kinds)
      for (const record of records.get(kind) ?? []) {
        const ofKind = gone.get(kind) ?? new Set<string>()
        if (ofKind.has(record.id)) continue
        if (!refers.some(({ field, to }) => gone.get(to)?.has(String(record[field])))) continue
        gone.set(kind, ofKind.add(record.id))
        more = true
      }
  }
  const counts = new Map([...gone].map(([kind, ids]) => [kind, ids.size]))
  for (const { kind } of removed) counts.set(kind, (counts.get(kind) ?? 1) - 1)
  return new Map([...counts].filter(([, count]) => count > 0))
}
