import type { AnyRecord } from '../model/kind.ts'
import type { Edit } from '../store/edit.ts'
import type { Ground } from './ground.ts'

/** The ground as it would be after edits to plantings, crops and varieties, none of which is kept; other kinds are passed over. */
export function withEdits(ground: Ground, edits: readonly Edit[]): Ground {
  return {
    ...ground,
    plantings: [...edited(new Map(ground.plantings.map((one) => [one.id, one])), 'plantings', edits).values()],
    crops: edited(new Map(ground.crops), 'crops', edits),
    varieties: edited(new Map(ground.varieties), 'varieties', edits),
  }
}

function edited<R extends { id: string }>(
  records: Map<string, R>,
  kind: string,
  edits: readonly Edit[],
): Map<string, R> {
  for (const edit of edits) {
    if (edit.kind !== kind) continue
    if (edit.do === 'add') records.set(edit.record.id, edit.record as AnyRecord as unknown as R)
    else if (edit.do === 'remove') records.delete(edit.id)
    else {
      const now = records.get(edit.id)
      if (now) records.set(edit.id, { ...now, ...edit.to })
    }
  }
  return records
}
