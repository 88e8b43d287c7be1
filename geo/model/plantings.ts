import { count, day, notNegative, optional, positive, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** One variety standing in a stretch of a row (from–to metres along it), or in a bed, from `set_out` to `cleared`. */
export const plantings = kind('plantings', 'plantings.csv', {
  id: text(),
  row: optional(ref('rows')),
  bed: optional(ref('beds')),
  variety: ref('varieties'),
  from_m: optional(notNegative()),
  to_m: optional(positive()),
  set_out: day(),
  cleared: optional(day()),
  plants: optional(count()),
  spacing_m: optional(positive()),
  purpose: optional(text()),
  note: optional(text()),
})
export type Planting = RecordOf<typeof plantings>
