import { between, oneOf, optional, text, wholeBetween } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** All the ground one archive holds. One record, id "farm"; the origin is where the farm's plane touches the earth. */
export const farm = kind('farm', 'farm.json', {
  name: text(),
  origin_lon: optional(between(-180, 180)),
  origin_lat: optional(between(-90, 90)),
  timezone: optional(text()),
  units: oneOf('metric', 'us'),
  currency: optional(text()),
  season_start_month: wholeBetween(1, 12),
})
export type Farm = RecordOf<typeof farm>
