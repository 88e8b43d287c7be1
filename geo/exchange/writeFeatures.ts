import type { Geometry, Position } from 'geojson'
import type { AnyRecord, Kind } from '../model/kind.ts'
import { lonWithin180 } from '../plane/lonLat.ts'

/** Records as a GeoJSON FeatureCollection (RFC 7946), one feature a line. Longitudes are put back within ±180. */
export function writeFeatures(kind: Kind, records: readonly AnyRecord[]): string {
  return collectionText(records.map((record) => featureText(record.id, record.geom!, propertiesOf(kind, record))))
}

/** A FeatureCollection of features that are text already. */
export function collectionText(features: readonly string[]): string {
  return `{"type":"FeatureCollection","features":[\n${features.join(',\n')}\n]}\n`
}

/** One feature as text: its own id, geometry, then properties. */
export function featureText(
  id: string,
  geometry: Geometry,
  properties: readonly (readonly [string, unknown])[],
): string {
  const told = properties.map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`).join(',')
  return `{"type":"Feature","id":${JSON.stringify(id)},"geometry":${geometryText(geometry)},"properties":{${told}}}`
}

/** What a record says of itself: the format's fields in their order, without those not known, then the rest by name. */
export function propertiesOf(kind: Kind, record: AnyRecord): [string, unknown][] {
  const fields = Object.keys(kind.fields).map((name): [string, unknown] => [name, record[name]])
  const extras = Object.entries(record.extra).sort(([a], [b]) => (a < b ? -1 : 1))
  return [...fields.filter(([, value]) => value !== null && value !== undefined), ...extras]
}

function geometryText(geometry: Geometry): string {
  if (geometry.type === 'GeometryCollection')
    return `{"type":"GeometryCollection","geometries":[${geometry.geometries.map(geometryText).join(',')}]}`
  return `{"type":"${geometry.type}","coordinates":${coordinatesText(geometry.coordinates)}}`
}

type Coordinates = Position | Position[] | Position[][] | Position[][][]

function coordinatesText(coordinates: Coordinates): string {
  const [first] = coordinates
  if (typeof first === 'number') {
    const [lon, ...rest] = coordinates as Position
    return `[${[lonWithin180(lon!), ...rest].map(numberText).join(',')}]`
  }
  return `[${(coordinates as Position[]).map(coordinatesText).join(',')}]`
}

/** The shortest text that reads back as the same double, minus zero included (which `JSON.stringify` would lose). */
function numberText(value: number): string {
  return Object.is(value, -0) ? '-0' : String(value)
}
