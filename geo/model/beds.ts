import { day, flag, optional, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A strip of growing ground that stays put from year to year. `outside_accepted`: the person was told that it leaves its field, and kept it. */
export const beds = kind(
  'beds',
  'beds.geojson',
  {
    id: text(),
    field: ref('fields'),
    name: text(),
    made: optional(day()),
    retired: optional(day()),
    note: optional(text()),
    outside_accepted: optional(flag()),
  },
  { shapes: ['Polygon'] },
)
export type Bed = RecordOf<typeof beds>
