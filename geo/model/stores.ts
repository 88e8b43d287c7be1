import { count, notNegative, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** Parts in store: how many pieces, or how many metres of what is sold by length; named as a system's part is. */
export const stores = kind('stores', 'stores.csv', {
  id: text(),
  part: text(),
  count: optional(count()),
  metres: optional(notNegative()),
  note: optional(text()),
})
export type Store = RecordOf<typeof stores>
