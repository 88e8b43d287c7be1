import { optional, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** One variety of a crop. */
export const varieties = kind('varieties', 'varieties.csv', {
  id: text(),
  crop: ref('crops'),
  name: text(),
  note: optional(text()),
})
export type Variety = RecordOf<typeof varieties>
