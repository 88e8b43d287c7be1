import { optional, positive, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** What one container of a crop weighs, with the source; crop null is every crop. */
export const containers = kind(
  'containers',
  'containers.csv',
  { unit: text(), kg: positive(), crop: optional(ref('crops')), source: optional(text()) },
  { hasId: false },
)
export type Container = RecordOf<typeof containers>
