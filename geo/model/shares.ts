import { between, optional, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** Who a part (0–1) of a pick went to, and for what. */
export const shares = kind(
  'shares',
  'shares.csv',
  { pick: ref('picks'), to: text(), part: between(0, 1), use: optional(text()) },
  { hasId: false },
)
export type Share = RecordOf<typeof shares>
