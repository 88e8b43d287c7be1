import { flag, optional, ref, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A line in a bed along which plants stand. `outside_accepted`: the person was told that it leaves its bed, and kept it. */
export const rows = kind(
  'rows',
  'rows.geojson',
  {
    id: text(),
    bed: ref('beds'),
    name: optional(text()),
    side: optional(text()),
    outside_accepted: optional(flag()),
  },
  { shapes: ['LineString'] },
)
export type Row = RecordOf<typeof rows>
