import { optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A piece of ground with one boundary. */
export const fields = kind(
  'fields',
  'fields.geojson',
  { id: text(), name: text(), note: optional(text()) },
  { shapes: ['Polygon', 'MultiPolygon'] },
)
export type FieldRecord = RecordOf<typeof fields>
