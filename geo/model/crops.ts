import { notNegative, oneOf, optional, positive, text, wholeBetween, yesNo } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/**
 * A crop; `family` is what rotation looks at, `juglone` its class with the source of it and how sure that is. The
 * columns after `return_years` are our own: usual values, each with its source. `usual_spacing_m` is between plants along
 * a row, the closest that is usual; a usual yield is low to high; `touches_soil` is of what is eaten; `first_pick_days`
 * run from setting out; `stands_years` is how long one planting usually stands.
 */
export const crops = kind('crops', 'crops.csv', {
  id: text(),
  name: text(),
  family: text(),
  climbs: optional(yesNo()),
  juglone: optional(oneOf('sensitive', 'tolerant', 'unknown')),
  juglone_source: optional(text()),
  return_years: optional(notNegative()),
  climbs_source: optional(text()),
  juglone_sure: optional(oneOf('listed', 'inferred', 'not listed')),
  return_source: optional(text()),
  usual_spacing_m: optional(positive()),
  spacing_source: optional(text()),
  yield_low_kg_per_m2: optional(notNegative()),
  yield_high_kg_per_m2: optional(notNegative()),
  yield_source: optional(text()),
  touches_soil: optional(yesNo()),
  touches_soil_source: optional(text()),
  first_pick_days: optional(notNegative()),
  first_pick_source: optional(text()),
  stands_years: optional(positive()),
  stands_source: optional(text()),
  /** Days from setting out until it needs its support. */
  support_after_days: optional(wholeBetween(0, 400)),
})
export type Crop = RecordOf<typeof crops>
