import { between, day, number, optional, positive, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** One picking, as told (quantity, unit). `kg_per_unit` is the weight that was used to reckon its mass. */
export const picks = kind('picks', 'picks.csv', {
  id: text(),
  on: day(),
  planting: optional(ref('plantings')),
  bed: optional(ref('beds')),
  lon: optional(number()),
  lat: optional(between(-90, 90)),
  quantity: positive(),
  unit: text(),
  grade: optional(text()),
  picker: optional(text()),
  note: optional(text()),
  kg_per_unit: optional(positive()),
})
export type Pick = RecordOf<typeof picks>
