import type { Geometry } from 'geojson'
import type { SqlType } from '../../model/field.ts'
import type { Kind } from '../../model/kind.ts'
import { mapPositions } from '../../plane/geometry.ts'
import { lonAbout, lonWithin180 } from '../../plane/lonLat.ts'
import type { FarmContent } from '../archive.ts'
import { cutAtMeridian } from '../cutAtMeridian.ts'
import { propertiesOf } from '../writeFeatures.ts'
import { KIND_COLUMN } from './partLayers.ts'
import { OWN_KIND } from './plan.ts'
import { SPATIAL } from './spatialKinds.ts'

/** What a column of a file that is given out may hold. */
export type ColumnType = 'text' | 'number' | 'whole' | 'yes/no' | 'day'

export interface GivenColumn {
  readonly name: string
  readonly type: ColumnType
}

export interface GivenFeature {
  /** Lon/lat within ±180, cut at the 180th meridian. */
  readonly geometry: Geometry
  /** Only what is known; a list or an object is JSON text. */
  readonly values: Readonly<Record<string, string | number | boolean>>
}

/** All records of one spatial kind, as a layer for other programs. */
export interface GivenLayer {
  readonly kind: Kind
  readonly columns: readonly GivenColumn[]
  readonly features: readonly GivenFeature[]
}

/** The layers of a farm; kinds without records have none. A record's own `kind` is in the column `what`. */
export function givenLayers(content: FarmContent): GivenLayer[] {
  const meridian = lonAbout(content.origin?.[0] ?? 0, 180)
  return SPATIAL.flatMap((kind) => {
    const records = content.records.get(kind.name) ?? []
    if (records.length === 0) return []
    const features = records.map((record) => ({
      geometry: mapPositions(cutAtMeridian(record.geom!, meridian), ([lon, lat]) => [lonWithin180(lon), lat]),
      values: Object.fromEntries(
        propertiesOf(kind, record).flatMap(([name, value]) =>
          value === null || value === undefined ? [] : [[name === KIND_COLUMN ? OWN_KIND : name, plain(value)]],
        ),
      ),
    }))
    return [{ kind, columns: columnsOf(kind, features), features }]
  })
}

const plain = (value: unknown): string | number | boolean =>
  typeof value === 'object' ? JSON.stringify(value) : (value as string | number | boolean)

const TYPES: Readonly<Record<SqlType, ColumnType>> = {
  text: 'text',
  'double precision': 'number',
  integer: 'whole',
  boolean: 'yes/no',
  date: 'day',
  jsonb: 'text',
}

/** The kind's own fields, those of which some record knows a value, then whatever else there is. */
function columnsOf(kind: Kind, features: readonly GivenFeature[]): GivenColumn[] {
  const used = new Set(features.flatMap(({ values }) => Object.keys(values)))
  const own = Object.entries(kind.fields).flatMap(([field, { sql, required }]): GivenColumn[] => {
    const name = field === KIND_COLUMN ? OWN_KIND : field
    return required || used.has(name) ? [{ name, type: TYPES[sql] }] : []
  })
  const known = new Set(own.map(({ name }) => name))
  const extra = [...used].filter((name) => !known.has(name)).sort()
  return [...own, ...extra.map((name) => ({ name, type: typeOf(features, name) }))]
}

function typeOf(features: readonly GivenFeature[], name: string): ColumnType {
  const types = new Set(features.flatMap(({ values }) => (Object.hasOwn(values, name) ? [typeof values[name]] : [])))
  if (types.size !== 1) return 'text'
  return types.has('number') ? 'number' : types.has('boolean') ? 'yes/no' : 'text'
}
