import type { Position } from 'geojson'
import type { AnyRecord, Kind } from '../model/kind.ts'
import { spreadsheetCsv } from './spreadsheetCell.ts'

/** What records of another kind are called, by their id. */
export type NamesOf = (kind: string, id: string) => string | null

/**
 * Records of a kind as a CSV for people: the format's columns, the name of what a column refers to beside its id, then
 * what else was kept of a record, and where it lies: lon and lat of a point, WKT (OGC 06-103r4) of anything else.
 */
export function tableForPeople(kind: Kind, records: readonly AnyRecord[], nameOf: NamesOf): string {
  const extras = [...new Set(records.flatMap(({ extra }) => Object.keys(extra)))].sort()
  const fields = Object.entries(kind.fields)
  const isPoint = kind.shapes?.every((shape) => shape === 'Point') ?? false
  const heads = [
    ...fields.flatMap(([name, { refers }]) => (refers ? [name, `${name} name`] : [name])),
    ...extras,
    ...(kind.shapes ? (isPoint ? ['lon', 'lat'] : ['wkt']) : []),
  ]
  const rows = records.map((record) => [
    ...fields.flatMap(([name, { refers }]) => {
      const value = record[name]
      return refers ? [asCell(value), typeof value === 'string' ? nameOf(refers, value) : null] : [asCell(value)]
    }),
    ...extras.map((name) => asCell(Object.hasOwn(record.extra, name) ? record.extra[name] : null)),
    ...(kind.shapes ? placeOf(record, isPoint) : []),
  ])
  return spreadsheetCsv(heads, rows)
}

function asCell(value: unknown): string | number | boolean | null {
  if (value === null || value === undefined) return null
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value
  return JSON.stringify(value)
}

function placeOf({ geom }: AnyRecord, isPoint: boolean): (string | number | null)[] {
  if (!geom) return isPoint ? [null, null] : [null]
  if (isPoint && geom.type === 'Point') return [geom.coordinates[0]!, geom.coordinates[1]!]
  if (geom.type === 'GeometryCollection') return [null]
  return [`${geom.type.toUpperCase()} ${wkt(geom.coordinates, geom.type === 'Point')}`]
}

type Coordinates = Position | Position[] | Position[][] | Position[][][]

function wkt(coordinates: Coordinates, isPoint: boolean): string {
  if (isPoint) return `(${position(coordinates as Position)})`
  const list = coordinates as Coordinates[]
  const inside = list.map((one) => (typeof one[0] === 'number' ? position(one as Position) : wkt(one, false)))
  return `(${inside.join(', ')})`
}

const position = (at: Position) => `${at[0]} ${at[1]}`
