import { day, optional, text, wholeBetween } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** Something seen at a place on a day. `photo`: a picture's file in the archive's photos folder. */
export const observations = kind(
  'observations',
  'observations.geojson',
  {
    id: text(),
    on: day(),
    kind: text(),
    severity: optional(wholeBetween(1, 5)),
    note: optional(text()),
    photo: optional(text()),
  },
  { shapes: ['Point'] },
)
export type Observation = RecordOf<typeof observations>
