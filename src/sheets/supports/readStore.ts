import type { InStore } from '../../desk/door.ts'
import { readNumber } from '../ground/formValues.ts'
import { METRES_PER_FOOT, type Units } from '../show/figures.ts'

/** What is typed of a part in store, as text; lengths in the person's units. */
export interface StoreDraft {
  readonly part: string
  readonly count: string
  readonly length: string
  readonly note: string
}

export interface StoreRead {
  /** What is wrong, by entry; nothing is kept then. */
  readonly faults: Readonly<Record<string, string>>
  readonly told: Pick<InStore, 'part' | 'count' | 'metres' | 'note'>
}

const perUnit = (units: Units) => (units === 'us' ? METRES_PER_FOOT : 1)

export const storeDraft = (of: InStore | null, units: Units): StoreDraft => ({
  part: of?.part ?? '',
  count: of?.count == null ? '' : String(of.count),
  length: of?.metres == null ? '' : String(Number((of.metres / perUnit(units)).toFixed(3))),
  note: of?.note ?? '',
})

/** Reads what was typed; a length that was not typed over keeps all its digits. */
export function readStore(draft: StoreDraft, of: InStore | null, units: Units): StoreRead {
  const [count, length] = [draft.count.trim(), draft.length.trim()]
  const pieces = count === '' ? null : readNumber(count)
  const metres = length === '' ? null : readNumber(length)
  const faults = {
    ...(draft.part.trim() === '' ? { part: 'Which part is it?' } : {}),
    ...(count !== '' && (pieces === null || pieces < 0 || !Number.isInteger(pieces))
      ? { count: `“${draft.count}” is not a whole number.` }
      : {}),
    ...(length !== '' && (metres === null || metres < 0) ? { metres: `“${draft.length}” is not a length.` } : {}),
    ...(count === '' && length === '' ? { count: 'How many, or how much by length?' } : {}),
  }
  const untouched = of !== null && draft.length === storeDraft(of, units).length
  return {
    faults,
    told: {
      part: draft.part.trim(),
      count: pieces,
      metres: metres === null ? null : untouched ? of.metres : metres * perUnit(units),
      note: draft.note.trim() || null,
    },
  }
}
