import { notNegative, oneOf, optional, text, yesNo } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A crop; `family` is what rotation looks at, `juglone` its class with the source of it. */
export const crops = kind('crops', 'crops.csv', {
  id: text(),
  name: text(),
  family: text(),
  climbs: optional(yesNo()),
  juglone: optional(oneOf('sensitive', 'tolerant', 'unknown')),
  juglone_source: optional(text()),
  return_years: optional(notNegative()),
})
export type Crop = RecordOf<typeof crops>
