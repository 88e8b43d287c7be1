import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import type { FarmContent, Fault } from '../../../geo/exchange/archive.ts'
import type { How } from '../../../geo/exchange/driver.ts'
import { DRIVERS, driverFor, driverForFile } from '../../../geo/exchange/drivers.ts'
import type { Found } from '../../../geo/exchange/layers/found.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { noPause } from '../../../geo/store/pace.ts'
import { archiveOf, box, collection, farmWith, feature, SOUND } from './archiveOf.ts'

const how = (fileName: string, grid: string | null = null): How => ({
  fileName,
  grid,
  columns: null,
  pace: noPause,
  sqliteUrl: null,
})
const look = (name: string, bytes: Uint8Array | string, grid: string | null = null): Promise<Found> =>
  driverFor(name)!.look!(typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes, how(name, grid))
const reasons = (notes: readonly Fault[]) =>
  notes.map(({ file, record, field, reason }) => `${file}|${record}|${field}|${reason}`)
const SPATIAL = ['fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations']

/** A farm with what is hard to carry: letters beyond ASCII, quotes, a hole, several parts, unknown columns. */
const hard = (): FarmContent => {
  const hole = { type: 'Polygon', coordinates: [...ring(0, 0, 60), ...ring(20, 30, 5).map((r) => [...r].reverse())] }
  const two = { type: 'MultiPolygon', coordinates: [ring(100, 0, 20), ring(130, 0, 20)] }
  const given = farmWith({
    'fields.geojson': collection(
      feature('f1', hole, { name: 'Žitna "njiva", <spodnja> & zgornja', note: 'line one\nline two' }),
      feature('f2', two, { name: 'Two' }),
    ),
    'trees.geojson': collection(
      feature(
        't1',
        { type: 'Point', coordinates: [8.0301, 47.4101] },
        { species: 'oreh ž', height_m: 12.5, girth: 0.1 },
      ),
    ),
    'supports.geojson': SOUND['supports.geojson']!,
  })
  return readArchive(given).content!
}
const ring = (e: number, n: number, side: number) =>
  (box(e, n, side, side) as unknown as { coordinates: number[][][] }).coordinates

describe('what was given out comes back', () => {
  const EXACT = DRIVERS.filter(({ look }) => look).map(({ name, endings }) => [name, endings[0]] as const)
  it.each(EXACT)('%s: every record of every kind with a place', async (name, ending) => {
    for (const content of [readArchive(archiveOf(SOUND)).content!, hard()]) {
      const driver = driverFor(`a${ending}`)!
      const { bytes, notes } = await driver.write(content, how(`a${ending}`))
      if (name !== 'gpx') expect(notes).toEqual([])
      const back = await driver.read(bytes, how(`a${ending}`))
      expect(back.notes.filter(({ field }) => field !== 'system' && field !== 'geometry')).toEqual([])
      for (const kind of SPATIAL) {
        const given = content.records.get(kind)!
        const read = back.content!.records.get(kind)!
        // GPX has no areas of several parts: they come back one by one.
        if (name === 'gpx' && kind === 'fields' && given.length > 1) expect(read).toHaveLength(3)
        else expect(read.map(loosely)).toEqual(given.map(loosely))
      }
    }
  })
})

/** What formats without types or fixed windings may change without harm: numbers as text in unknown columns, where a ring begins. */
function loosely({ geom, extra, ...rest }: { geom?: unknown; extra: object; [field: string]: unknown }) {
  const positions = new Set(JSON.stringify(geom).match(/\[-?[\d.]+,-?[\d.e-]+\]/g))
  const { type } = geom as { type: string }
  return {
    ...rest,
    extra: Object.fromEntries(Object.entries(extra).map(([key, value]) => [key, String(value)])),
    type,
    positions: [...positions].sort(),
  }
}

// The 16 files of npm's @mapbox/geojson-fixtures 2.0.0 (C: as the package ships them).
describe('geojson-fixtures', () => {
  const data = join(dirname(createRequire(import.meta.url).resolve('@mapbox/geojson-fixtures')), 'data')
  const files = readdirSync(data, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.geojson'))
  it('are all here', () => expect(files).toHaveLength(16))
  it.each(files)('%s is read, or what is amiss is told', async (name) => {
    const bytes = readFileSync(join(data, name))
    const { layers, notes } = await look(name, bytes)
    expect(notes).toEqual([])
    const [one] = layers[0]!.features
    const json = JSON.parse(bytes.toString())
    const given = json.geometry ?? json.features?.[0]?.geometry ?? json
    if (one!.flaws.length > 0) expect(one!.flaws.join()).toMatch(/not closed|at least|all the same|position/)
    else expect(one!.geometry).toEqual(given)
  })
})

describe('hostile files', () => {
  it('zip bombs and paths out of the zip are refused in KMZ and shapefiles alike', async () => {
    const bomb = zipSync({ 'doc.kml': new Uint8Array(80 * 1024 * 1024) }, { level: 9 })
    expect(reasons((await look('a.kmz', bomb)).notes)).toEqual([expect.stringMatching(/only a bomb does/)])
    const out = zipSync({ '../x.shp': new Uint8Array(200) })
    expect(reasons((await look('a.shz', out)).notes)).toEqual([expect.stringMatching(/leads out of the archive/)])
  })
  it('entities in KML are refused', async () => {
    const kml =
      '<!DOCTYPE kml [<!ENTITY x SYSTEM "file:///etc/passwd">]><kml><Placemark><name>&x;</name></Placemark></kml>'
    const { layers, notes } = await look('a.kml', kml)
    expect(layers).toEqual([])
    expect(reasons(notes)).toEqual([expect.stringMatching(/DOCTYPE/)])
  })
  it('files that are something else say so', async () => {
    for (const name of ['a.gpkg', 'a.kml', 'a.kmz', 'a.gpx', 'a.csv', 'a.shz', 'a.geojson']) {
      const { layers, notes } = await look(name, 'hello world')
      expect(layers, name).toEqual([])
      expect(notes.length, name).toBeGreaterThan(0)
    }
  })
  it('damaged SQLite is told, not thrown', async () => {
    const { bytes } = await driverFor('a.gpkg')!.write(hard(), how('a.gpkg'))
    const broken = bytes.slice(0, bytes.length / 2)
    const { notes } = await look('a.gpkg', broken)
    expect(reasons(notes).join()).toMatch(/can't be read/)
  })
  it('a work that is stopped, stops', async () => {
    const stopped = new DOMException('stopped', 'AbortError')
    const lines = Array.from({ length: 20_000 }, (_, i) => `8.03,47.4,${i}`).join('\n')
    const bytes = new TextEncoder().encode(`lon,lat,n\n${lines}`)
    const pace = () => Promise.reject(stopped)
    await expect(driverFor('a.csv')!.look!(bytes, { ...how('a.csv'), pace })).rejects.toBe(stopped)
  })
})

describe('shapefiles', () => {
  const written = async () => {
    const { unzipSync } = await import('fflate')
    return unzipSync((await driverFor('a.shz')!.write(readArchive(archiveOf(SOUND)).content!, how('a.shz'))).bytes)
  }
  const only = (files: Record<string, Uint8Array>, stem: string) =>
    Object.fromEntries(Object.entries(files).filter(([name]) => name.startsWith(`${stem}.`)))
  it('cut short are read as far as they go', async () => {
    const files = only(await written(), 'beds')
    const cut = zipSync({
      ...files,
      'beds.shp': files['beds.shp']!.subarray(0, 300),
      'beds.dbf': files['beds.dbf']!.subarray(0, -5),
    })
    const { layers, notes } = await look('a.shz', cut)
    expect(layers[0]!.features).toHaveLength(1)
    expect(reasons(notes)).toEqual([
      expect.stringMatching(/^beds\.shp.*cut short or damaged in record 2/),
      expect.stringMatching(/^beds\.dbf.*cut short after record 1 of 2/),
    ])
  })
  it('without .prj are taken for lon/lat only where they can be', async () => {
    const { 'beds.prj': _, ...files } = only(await written(), 'beds')
    expect(reasons((await look('a.shz', zipSync(files))).notes)).toEqual([
      expect.stringMatching(/taken for longitude and latitude/),
    ])
    const strange = zipSync({
      ...files,
      'beds.prj': new TextEncoder().encode('PROJCS["Mine",GEOGCS["My",DATUM["Own",SPHEROID["S",6300000,300]]]]'),
    })
    const { layers, notes, asksGrid } = await look('a.shz', strange)
    expect([layers, asksGrid]).toEqual([[], true])
    expect(reasons(notes)).toEqual([expect.stringMatching(/beds\.prj.*not known here.*EPSG code or PROJ string/)])
    expect((await look('a.shz', strange, 'EPSG:4326')).layers).toHaveLength(1)
  })
  it('in the encoding of their .cpg, of their language byte, or by a guess that is told', async () => {
    const { writeDbf } = await import('../../../geo/exchange/shapefile/writeDbf.ts')
    const { readDbf } = await import('../../../geo/exchange/shapefile/readDbf.ts')
    const { dbf } = writeDbf(
      [{ name: 'a', type: 'text' }],
      [{ geometry: { type: 'Point', coordinates: [0, 0] }, values: { a: 'xx' } }],
    )
    // "ž" in Windows-1250 and in no UTF-8; "ü" in Windows-1252 (Unicode's mapping tables, M).
    const at = dbf.length - 3
    const withBytes = (...bytes: number[]) => {
      const copy = dbf.slice()
      copy.set(bytes, at)
      return copy
    }
    const value = async (bytes: Uint8Array, page: string | null) => (await readDbf(bytes, page, noPause)).records[0]!.a
    expect(await value(withBytes(0x9e, 0x20), 'ANSI 1250')).toBe('ž')
    expect(await value(withBytes(0xfc, 0x20), null)).toBe('ü')
    const byByte = withBytes(0x9e, 0x20)
    byByte[29] = 200
    expect(await value(byByte, null)).toBe('ž')
    expect((await readDbf(withBytes(0xfc, 0x20), null, noPause)).notes[0]!.reason).toMatch(/Windows-1252/)
  })
  it('in a plain .zip are told from an archive', async () => {
    expect((await driverForFile('a.zip', zipSync(await written())))?.name).toBe('shapefile')
    const archive = await driverFor('a.zip')!.write(hard(), how('a.zip'))
    expect((await driverForFile('a.zip', archive.bytes))?.name).toBe('archive zip')
  })
})

describe('CSV', () => {
  it('with semicolons and decimal commas', async () => {
    const { layers } = await look('spots.csv', 'Name;Breite;lat;lon\n"Ost; nah";1,5;47,4101;8,0301\n')
    expect(layers[0]!.features[0]).toMatchObject({
      geometry: { type: 'Point', coordinates: [8.0301, 47.4101] },
      values: { Name: 'Ost; nah', Breite: '1,5' },
    })
  })
  it('tells what is wrong line by line', async () => {
    const { layers, notes } = await look('a.csv', 'id,id,x,y\n1,2,8,47\n3,4,east,47\n5,6,8\n7,8,,\n')
    expect(layers[0]!.features.map(({ flaws }) => flaws)).toEqual([
      [],
      ['has the coordinate "east", which is not a number'],
      ['has only one of two coordinates'],
      [],
    ])
    expect(reasons(notes)).toEqual([
      expect.stringMatching(/line 1\|id\|stands twice/),
      expect.stringMatching(/taken for longitude and latitude/),
      expect.stringMatching(/line 4\|\|has 3 cells, the header line 4/),
    ])
  })
  // OGC 06-103r4, clause 7 (M).
  it('of well-known text in every form', async () => {
    const { parseWkt } = await import('../../../geo/exchange/csv/parseWkt.ts')
    expect(parseWkt('SRID=4326;POINT Z (1 2 3)')).toEqual({
      geometry: { type: 'Point', coordinates: [1, 2, 3] },
      srid: 4326,
    })
    expect(parseWkt('multipoint((1 2),(3 4))')).toMatchObject({
      geometry: {
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
    })
    expect(parseWkt('MULTIPOINT(1 2, 3 4)')).toMatchObject({
      geometry: {
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
    })
    expect(parseWkt('POINTM(1 2 9)')).toMatchObject({ geometry: { coordinates: [1, 2] } })
    expect(parseWkt('LINESTRING ZM (1 2 3 4, 5 6 7 8)')).toMatchObject({
      geometry: {
        coordinates: [
          [1, 2, 3],
          [5, 6, 7],
        ],
      },
    })
    expect(parseWkt('POLYGON EMPTY')).toEqual({ geometry: null, srid: null })
    expect(parseWkt('GEOMETRYCOLLECTION(POINT(1 2),LINESTRING(1 2,3 4))')).toMatchObject({
      geometry: { geometries: [{ type: 'Point' }, { type: 'LineString' }] },
    })
    for (const wrong of ['CIRCLE(1 2)', 'POINT(1)', 'POINT(1 2', 'POINT(1 2) x', 'POLYGON((1 2, 3 4)'])
      expect(parseWkt(wrong), wrong).toHaveProperty('reason')
  })
})
