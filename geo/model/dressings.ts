import { day, notNegative, optional, ref, text, yesNo } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** What was put on the soil of a bed. `photo`: a picture's file in the archive's photos folder. */
export const dressings = kind('dressings', 'dressings.csv', {
  id: text(),
  on: day(),
  bed: ref('beds'),
  material: text(),
  kg_per_m2: optional(notNegative()),
  raw_manure: optional(yesNo()),
  note: optional(text()),
  photo: optional(text()),
})
export type Dressing = RecordOf<typeof dressings>
