import type { Geometry } from 'geojson'
import type { Field } from './field.ts'

export type Shape = 'Point' | 'LineString' | 'Polygon' | 'MultiPolygon' | 'any'
export type Fields = Readonly<Record<string, Field<unknown>>>

/** A kind of record: its archive file, table (both by `name`), fields in archive order, and geometry if it has one. */
export interface Kind<F extends Fields = Fields> {
  readonly name: string
  readonly file: string
  readonly fields: F
  /** Geometry types allowed, or null where a record has no place of its own. */
  readonly shapes: readonly Shape[] | null
  /** False where the archive gives records of this kind no `id`; the store then makes one of its own. */
  readonly hasId: boolean
}

type Values<F extends Fields> = { -readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never }

/** What a farm record is in memory: its fields, what else its file said of it, and where it lies (lon/lat). */
export type RecordOf<K extends Kind> = Values<K['fields']> & {
  id: string
  /** Properties or columns that the archive format does not know, kept and written back. */
  extra: Record<string, unknown>
} & (K['shapes'] extends null ? unknown : { geom: Geometry })

/** Any record, where the kind is only known at run time. */
export interface AnyRecord {
  id: string
  extra: Record<string, unknown>
  geom?: Geometry
  [field: string]: unknown
}

export const kind = <const F extends Fields, const S extends readonly Shape[] | null = null>(
  name: string,
  file: string,
  fields: F,
  more: { shapes?: S; hasId?: boolean } = {},
): Kind<F> & { readonly shapes: S } => ({
  name,
  file,
  fields,
  shapes: (more.shapes ?? null) as S,
  hasId: more.hasId ?? true,
})
