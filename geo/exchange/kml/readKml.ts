import type { Geometry, Position } from 'geojson'
import { LON_LAT } from '../../plane/grid.ts'
import type { Pace } from '../../store/pace.ts'
import type { Fault } from '../archive.ts'
import { shown } from '../faults.ts'
import type { FoundFeature, FoundLayer } from '../layers/found.ts'
import { NO_SHAPE, type Placed, placeShape } from '../layers/placeShape.ts'
import { childOf, readXml, textOf, type XmlElement } from '../xml/readXml.ts'

const NUMBERS = new Set(['double', 'float', 'int', 'uint', 'short', 'ushort'])
/** What is of no use here, and may be large. */
const PASSED_OVER = new Set(['Style', 'StyleMap', 'LookAt', 'Camera', 'Region'])

/**
 * Placemarks of a KML file (OGC 12-007r2, version 2.3; 2.2 and older are read too), a layer a folder. Coordinates are
 * longitude, latitude, height by the standard. Pictures and links are not followed, and that is told.
 */
export async function readKml(
  bytes: Uint8Array,
  file: string,
  pace: Pace,
): Promise<{ layers: FoundLayer[]; notes: Fault[] }> {
  const notes: Fault[] = []
  const layers = new Map<string, FoundFeature[]>()
  const schemas = new Map<string, ReadonlySet<string>>()
  let counted = 0
  const links = { NetworkLink: 0, GroundOverlay: 0 }
  const { root, flaw } = await readXml(
    bytes,
    {
      closed(element, above) {
        if (PASSED_OVER.has(element.name)) return true
        if (element.name === 'Schema') {
          const numbers = element.children.filter(({ attributes }) => NUMBERS.has(attributes.type ?? ''))
          schemas.set(element.attributes.id ?? '', new Set(numbers.map(({ attributes }) => attributes.name ?? '')))
          return true
        }
        if (element.name === 'NetworkLink' || element.name === 'GroundOverlay') {
          links[element.name] += 1
          return true
        }
        if (element.name !== 'Placemark') return false
        counted += 1
        const name = folderName(above)
        const layer = layers.get(name) ?? []
        layers.set(name, layer)
        layer.push(featureOf(element, counted, schemas))
        return true
      },
    },
    pace,
  )
  if (flaw) notes.push({ file, record: flaw.line === null ? '' : `line ${flaw.line}`, field: '', reason: flaw.reason })
  else if (root?.name !== 'kml')
    notes.push({
      file,
      record: '',
      field: '',
      reason: `is no KML: its outermost element is ${root?.name ?? 'missing'}`,
    })
  for (const [name, count] of Object.entries(links))
    if (count > 0)
      notes.push({
        file,
        record: '',
        field: name,
        reason: `${count} of these ${count === 1 ? 'is' : 'are'} not followed`,
      })
  return { layers: [...layers].map(([name, features]) => ({ name, file, features })), notes }
}

function folderName(above: readonly XmlElement[]): string {
  const holders = above.filter(({ name }) => name === 'Folder' || name === 'Document')
  return holders.map((holder) => textOf(holder, 'name')).findLast((name) => name !== null) ?? ''
}

function featureOf(element: XmlElement, n: number, schemas: ReadonlyMap<string, ReadonlySet<string>>): FoundFeature {
  const values: Record<string, unknown> = {}
  const name = textOf(element, 'name')
  const description = textOf(element, 'description')
  const stamp = childOf(element, 'TimeStamp')
  const when = stamp ? textOf(stamp, 'when') : null
  if (name !== null) values.name = name
  if (description !== null) values.description = description
  if (when !== null) values.time = when
  const extended = childOf(element, 'ExtendedData')
  for (const data of extended?.children ?? []) {
    if (data.name === 'Data') put(values, data.attributes.name, textOf(data, 'value'), false)
    if (data.name !== 'SchemaData') continue
    const numbers = schemas.get((data.attributes.schemaUrl ?? '').replace(/^.*#/, ''))
    for (const simple of data.children)
      put(values, simple.attributes.name, simple.text || null, numbers?.has(simple.attributes.name ?? '') ?? false)
  }
  const own = typeof values.id === 'string' ? values.id : (element.attributes.id ?? null)
  const told = name ?? own
  return {
    n,
    where: told === null ? `placemark ${n}` : `placemark ${n} (${told})`,
    id: element.attributes.id ?? null,
    ...shapeOf(element),
    values,
  }
}

function put(values: Record<string, unknown>, name: string | undefined, text: string | null, isNumber: boolean): void {
  if (name === undefined || text === null) return
  values[name] = isNumber && text.trim() !== '' && Number.isFinite(Number(text)) ? Number(text) : text
}

class Unreadable extends Error {}

function shapeOf(element: XmlElement): Placed {
  try {
    const shapes = element.children.flatMap(geometriesOf)
    if (shapes.length === 0) return NO_SHAPE
    return placeShape(shapes.length === 1 ? shapes[0]! : together(shapes), LON_LAT)
  } catch (error) {
    if (error instanceof Unreadable) return { geometry: null, flaws: [error.message] }
    throw error
  }
}

function geometriesOf(element: XmlElement): Geometry[] {
  switch (element.name) {
    case 'Point': {
      const [coordinates] = positionsIn(element)
      return coordinates ? [{ type: 'Point', coordinates }] : []
    }
    case 'LineString':
    case 'LinearRing':
      return lineOf(positionsIn(element))
    case 'Polygon': {
      const rings = ['outerBoundaryIs', 'innerBoundaryIs'].flatMap((side) =>
        element.children
          .filter(({ name }) => name === side)
          .flatMap(({ children }) => children.filter(({ name }) => name === 'LinearRing').map(positionsIn)),
      )
      return rings.length > 0 ? [{ type: 'Polygon', coordinates: rings }] : []
    }
    case 'Track':
      return lineOf(
        element.children.filter(({ name }) => name === 'coord').map(({ text }) => positionOf(text.split(/\s+/), text)),
      )
    case 'MultiGeometry':
    case 'MultiTrack': {
      const parts = element.children.flatMap(geometriesOf)
      return parts.length > 0 ? [together(parts)] : []
    }
    case 'Model':
      throw new Unreadable('is a model, not a shape')
    default:
      return []
  }
}

const lineOf = (coordinates: Position[]): Geometry[] =>
  coordinates.length > 0 ? [{ type: 'LineString', coordinates }] : []

/** Parts of one sort as a multi-geometry, of several as a collection. */
function together(parts: readonly Geometry[]): Geometry {
  const types = new Set(parts.map(({ type }) => type))
  const [type] = types
  if (types.size > 1 || (type !== 'Point' && type !== 'LineString' && type !== 'Polygon'))
    return { type: 'GeometryCollection', geometries: [...parts] }
  const coordinates = parts.map((part) => (part as Extract<Geometry, { coordinates: unknown }>).coordinates)
  return { type: `Multi${type}`, coordinates } as Geometry
}

/** Tuples parted by white space, numbers by commas; a space behind a comma, which many programs write, is let pass. */
function positionsIn(element: XmlElement): Position[] {
  const text = (textOf(element, 'coordinates') ?? '').replace(/\s*,\s*/g, ',')
  return text === '' ? [] : text.split(/\s+/).map((tuple) => positionOf(tuple.split(','), tuple))
}

function positionOf(parts: readonly string[], tuple: string): Position {
  const numbers = parts.slice(0, 3).map((part) => (part === '' ? Number.NaN : Number(part)))
  if (numbers.length < 2 || numbers.some((value) => !Number.isFinite(value)))
    throw new Unreadable(`has ${shown(tuple)} for a position`)
  return numbers
}
