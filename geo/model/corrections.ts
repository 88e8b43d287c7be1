import { day, oneOf, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/**
 * That a record was put right or struck out, and why: the line in the margin of the notebook. `record` is the id of a
 * record of `kind`, which may be gone; `was` and `now` tell it in words, `now` null where it was struck out. What a
 * record was, field by field, is in the journal; this is what the archive keeps of it.
 */
export const corrections = kind('corrections', 'corrections.csv', {
  id: text(),
  on: day(),
  kind: text(),
  record: text(),
  deed: oneOf('changed', 'removed'),
  reason: text(),
  was: optional(text()),
  now: optional(text()),
})
export type Correction = RecordOf<typeof corrections>
