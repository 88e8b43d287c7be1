import { notNegative, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** Anything else fixed: fence, gate, path, water line, shed, windbreak. */
export const structures = kind(
  'structures',
  'structures.geojson',
  { id: text(), kind: text(), name: optional(text()), note: optional(text()), height_m: optional(notNegative()) },
  { shapes: ['any'] },
)
export type Structure = RecordOf<typeof structures>
