import type { Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { FarmContent } from '../../../geo/exchange/archive.ts'
import { driverFor } from '../../../geo/exchange/drivers.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { signedArea } from '../../../geo/exchange/rings.ts'
import { noPause } from '../../../geo/store/pace.ts'
import { archiveOf, box, collection, farmWith, feature, line, point, SOUND } from './archiveOf.ts'

const how = { fileName: 'GeoJSON', grid: null, columns: null, pace: noPause, sqliteUrl: null }
const both = (name: string) => {
  const driver = driverFor(name)!
  return {
    read: (bytes: Uint8Array) => driver.read(bytes, how),
    write: async (content: FarmContent) => (await driver.write(content, how)).bytes,
  }
}
const geojson = both('farm.geojson')
const zip = both('farm.ZIP')
const bytes = (json: object | string) =>
  new TextEncoder().encode(typeof json === 'string' ? json : JSON.stringify(json))
const sound = () => readArchive(archiveOf(SOUND)).content!
const SPATIAL = ['fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations']

interface Written {
  features: { id: string; geometry: Polygon; properties: Record<string, unknown> }[]
}
const written = async (content = sound()): Promise<Written> =>
  JSON.parse(new TextDecoder().decode(await geojson.write(content)))

describe('the formats', () => {
  it('are told by the ending of a name', () => {
    const names = [
      'a.json',
      'a.geojson',
      'a.zip',
      'A.SHP.ZIP',
      'a.shz',
      'a.kml',
      'a.kmz',
      'a.gpx',
      'a.csv',
      'a.gpkg',
      'a.doc',
    ]
    expect(names.map((name) => driverFor(name)?.name)).toEqual([
      'geojson',
      'geojson',
      'archive zip',
      'shapefile',
      'shapefile',
      'kml',
      'kmz',
      'gpx',
      'csv',
      'geopackage',
      undefined,
    ])
  })
  it('bring back all that they took: the zip', async () => {
    const { content, notes } = await zip.read(await zip.write(sound()))
    expect(notes).toEqual([])
    expect(content).toStrictEqual(sound())
  })
  it('bring back all that has a geometry: GeoJSON', async () => {
    const { content, notes } = await geojson.read(await geojson.write(sound()))
    expect(notes.map((note) => note.reason)).toEqual(['the support system "y1" was made by its name'])
    for (const kind of SPATIAL) expect(content!.records.get(kind), kind).toStrictEqual(sound().records.get(kind))
    expect(content!.records.get('systems')).toMatchObject([{ id: 'y1', name: 'y1', note: null, extra: {} }])
  })
})

describe('GeoJSON for other programs', () => {
  it('says of each feature which kind of record it is, and keeps a record’s own kind apart', async () => {
    const { features } = await written()
    expect([...new Set(features.map((one) => one.properties.kind))]).toEqual(SPATIAL)
    const fence = features.find((one) => one.id === 'w1')!
    expect(fence.properties).toEqual({ kind: 'structures', id: 'w1', what: 'fence' })
  })
  it('follows the right-hand rule whichever way the farm holds its rings', async () => {
    const shape = box(5, 5, 1.2, 40) as Polygon
    const clockwise = { ...shape, coordinates: [[...shape.coordinates[0]!].reverse()] }
    const beds = collection(
      feature('b1', clockwise, { field: 'f1', name: 'B' }),
      feature('b2', shape, { field: 'f1', name: 'C' }),
    )
    const { features } = await written(readArchive(farmWith({ 'beds.geojson': beds })).content!)
    const outlines = features.filter((one) => one.geometry.type === 'Polygon')
    expect(outlines).toHaveLength(3)
    for (const { geometry } of outlines) expect(signedArea(geometry.coordinates[0]!)).toBeGreaterThan(0)
  })
  it('is cut at the 180th meridian, and joined again when it comes back', async () => {
    const lot = [
      [
        [179.9995, -16.8],
        [-179.9995, -16.8],
        [-179.9995, -16.799],
        [179.9995, -16.799],
        [179.9995, -16.8],
      ],
    ]
    const { content } = readArchive(
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'F' },
        'fields.geojson': collection(feature('f1', { type: 'Polygon', coordinates: lot }, { name: 'Shore' })),
      }),
    )
    const { features } = await written(content!)
    expect(features[0]!.geometry).toEqual({
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [180, -16.799],
            [179.9995, -16.799],
            [179.9995, -16.8],
            [180, -16.8],
            [180, -16.799],
          ],
        ],
        [
          [
            [-180, -16.8],
            [-179.9995, -16.8],
            [-179.9995, -16.799],
            [-180, -16.799],
            [-180, -16.8],
          ],
        ],
      ],
    })
    const again = await geojson.read(await geojson.write(content!))
    const ring = (again.content!.records.get('fields')![0]!.geom as Polygon).coordinates[0]!
    expect(again.content!.records.get('fields')![0]!.geom!.type).toBe('Polygon')
    expect(ring).toHaveLength(5)
  })
})

describe('GeoJSON from other programs', () => {
  it('is told apart by what only one kind has, and completed with notes', async () => {
    const given = collection(
      { type: 'Feature', id: 4, geometry: box(0, 0, 60, 60), properties: { name: 'Upper' } },
      { type: 'Feature', geometry: box(5, 5, 1.2, 40), properties: { field: '4', soil: 'loam' } },
      { type: 'Feature', geometry: line([5.6, 6], [5.6, 44]), properties: { bed: 'beds-2', kind: null } },
      { type: 'Feature', geometry: point(1, 1), properties: { species: 'Juglans nigra', id: 't' } },
      { type: 'Feature', geometry: point(2, 2), properties: { colour: 'red' } },
      { type: 'Feature', geometry: point(2, 2), properties: { kind: 'structures', what: 'well', id: 'w' } },
    )
    const { content, notes } = await geojson.read(bytes(given))
    expect(content!.records.get('fields')).toMatchObject([{ id: '4', name: 'Upper' }])
    expect(content!.records.get('beds')).toMatchObject([
      { id: 'beds-2', field: '4', name: 'beds-2', extra: { soil: 'loam' } },
    ])
    expect(content!.records.get('rows')).toMatchObject([{ id: 'rows-3', bed: 'beds-2' }])
    expect(content!.records.get('trees')).toMatchObject([{ id: 't', species: 'Juglans nigra' }])
    expect(content!.records.get('structures')).toMatchObject([{ id: 'w', kind: 'well' }])
    expect(notes.map((note) => `${note.record} ${note.field}: ${note.reason}`)).toEqual([
      'feature 2 id: has no id and was given "beds-2"',
      'feature 2 name: has no name and was given its id',
      'feature 3 id: has no id and was given "rows-3"',
      expect.stringMatching(/^feature 5 kind: is left out/),
    ])
  })
  it('is read as far as it is sound, the rest noted', async () => {
    const given = collection(
      feature('b', box(5, 5, 1, 1), { kind: 'beds', field: 'nowhere', name: 'B' }),
      feature('r', line([5.5, 5], [5.5, 6]), { kind: 'rows', bed: 'b' }),
      feature('t', { type: 'Point', coordinates: [8.03, 98] }, { kind: 'trees', species: 'x' }),
      feature('t2', point(1, 1), { kind: 'trees', species: 'x' }),
    )
    const { content, notes } = await geojson.read(bytes(given))
    expect([...content!.records.keys()]).toEqual(['trees'])
    expect(notes.map((note) => `${note.record} ${note.field}`).sort()).toEqual([
      'feature 1 (b) field',
      'feature 2 (r) bed',
      'feature 3 (t) geometry',
    ])
  })
  it('that is none gives nothing but the reason', async () => {
    expect(await geojson.read(bytes('{"type":'))).toEqual({
      content: null,
      notes: [{ file: 'GeoJSON', record: 'line 1, column 9', field: '', reason: 'is not JSON: ends too early' }],
    })
  })
})
