import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Feature, FeatureCollection, Geometry } from 'geojson'
import { afterAll, describe, expect, it } from 'vitest'
import type { How } from '../../geo/exchange/driver.ts'
import { driverFor } from '../../geo/exchange/drivers.ts'
import type { Found, FoundFeature } from '../../geo/exchange/layers/found.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { positionsOf } from '../../geo/plane/geometry.ts'
import { noPause } from '../../geo/store/pace.ts'
import { archiveOf, SOUND } from '../unit/exchange/archiveOf.ts'

const hasGdal = existsSync('/usr/bin/ogr2ogr')
if (!hasGdal) console.info('ogr2ogr is not there: Debian’s gdal-bin')

const folder = mkdtempSync(join(tmpdir(), 'selion-gdal-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const at = (name: string) => join(folder, name)
const how = (fileName: string, grid: string | null = null): How => ({
  fileName,
  grid,
  columns: null,
  pace: noPause,
  sqliteUrl: null,
})
const ogr = (...args: string[]) => execFileSync('ogr2ogr', args, { stdio: ['ignore', 'pipe', 'pipe'] }).toString()
const farm = () => readArchive(archiveOf(SOUND)).content!

/** What GDAL reads in a layer of a file, as GeoJSON with every digit. */
function gdalReads(file: string, layer: string | null): Feature[] {
  const lines = ogr(
    '-f',
    'GeoJSON',
    '/vsistdout/',
    file,
    ...(layer ? [layer] : []),
    '-lco',
    'COORDINATE_PRECISION=15',
    ...(file.endsWith('.csv') ? [] : ['-t_srs', 'OGC:CRS84']),
  )
  return (JSON.parse(lines) as FeatureCollection).features
}

/** Places of two geometries agree within so many degrees, wherever rings begin and whichever way they run. */
function expectSameShape(a: Geometry, b: Geometry, withinDeg: number): void {
  const key = ([x, y]: readonly number[]) => [x!, y!] as const
  const sorted = (g: Geometry) =>
    [...new Map([...positionsOf(g)].map((p) => [`${p[0]!.toFixed(9)} ${p[1]!.toFixed(9)}`, key(p)])).values()].sort(
      (p, q) => p[0] - q[0] || p[1] - q[1],
    )
  const [as, bs] = [sorted(a), sorted(b)]
  expect(bs).toHaveLength(as.length)
  for (const p of as) {
    const off = Math.min(...bs.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1])))
    expect(off).toBeLessThanOrEqual(withinDeg)
  }
}

// X: GDAL 3.6.2's reading of what was written here.
describe.skipIf(!hasGdal)('GDAL reads what is given out', () => {
  const cases = [
    { file: 'a.geojson', source: 'a.geojson', layer: () => null, exactDeg: 0 },
    { file: 'a.gpkg', source: 'a.gpkg', layer: (kind: string) => kind, exactDeg: 0 },
    { file: 'a.shz', source: 'a.shz', layer: (kind: string) => kind, exactDeg: 0 },
    { file: 'a.kml', source: 'a.kml', layer: (kind: string) => kind, exactDeg: 0 },
    { file: 'a.kmz', source: 'a.kmz', layer: (kind: string) => kind, exactDeg: 0 },
    { file: 'a.csv', source: 'a.csv', layer: () => null, exactDeg: 0 },
  ]
  it.each(cases)('$file', async ({ file, layer, exactDeg }) => {
    const { bytes, notes } = await driverFor(file)!.write(farm(), how(file))
    expect(notes).toEqual([])
    writeFileSync(at(file), bytes)
    const all = layer('') === null ? gdalReads(at(file), null) : null
    for (const kind of ['fields', 'beds', 'rows', 'trees', 'supports', 'observations']) {
      const records = farm().records.get(kind)!
      const read = all?.filter((one) => one.properties!.kind === kind) ?? gdalReads(at(file), layer(kind))
      expect(read, kind).toHaveLength(records.length)
      records.forEach((record, i) => {
        const { geometry, properties } = read[i]!
        expectSameShape(record.geom!, geometry, exactDeg)
        for (const [name, value] of Object.entries(record)) {
          if (name === 'geom' || name === 'extra' || value === null) continue
          // GDAL makes a column "id" the feature's own, and KML's name "Name".
          const own = name === 'id' ? read[i]!.id : name === 'name' ? properties!.Name : undefined
          const told = properties![name === 'kind' ? 'what' : name] ?? properties![name.slice(0, 10)] ?? own
          if (typeof value === 'boolean') expect(['true', 't', '1']).toContain(String(told).toLowerCase())
          else expect(String(told).replaceAll('/', '-'), `${kind}.${name}`).toBe(String(value))
        }
      })
    }
  })
  it('a.gpx, lines as tracks and points as waypoints', async () => {
    const { bytes } = await driverFor('a.gpx')!.write(farm(), how('a.gpx'))
    writeFileSync(at('a.gpx'), bytes)
    const points = gdalReads(at('a.gpx'), 'waypoints')
    const tracks = gdalReads(at('a.gpx'), 'tracks')
    const count = (...kinds: string[]) => kinds.reduce((sum, kind) => sum + farm().records.get(kind)!.length, 0)
    expect(points.filter((one) => one.properties!.type === 'trees')).toHaveLength(count('trees'))
    expect(tracks.filter((one) => one.properties!.type === 'beds')).toHaveLength(count('beds'))
    expectSameShape(
      farm().records.get('rows')![0]!.geom!,
      tracks.find((one) => one.properties!.type === 'rows')!.geometry,
      0,
    )
  })
  it('and finds nothing amiss in the GeoPackage', async () => {
    const { bytes } = await driverFor('b.gpkg')!.write(farm(), how('b.gpkg'))
    writeFileSync(at('b.gpkg'), bytes)
    const told = execFileSync('ogrinfo', ['-so', at('b.gpkg'), 'beds'], { stdio: 'pipe' }).toString()
    expect(told).toMatch(/Geometry: Polygon/)
    expect(told).toMatch(/GEOGCRS\["WGS 84"/)
    expect(told).toMatch(/made: Date|field: String/)
    expect(told).not.toMatch(/Warning|ERROR/)
  })
})

/** Shapes for GDAL to write: of every sort, with a hole, several parts, heights, an empty one, words beyond ASCII. */
const GIVEN: Feature<Geometry | null>[] = [
  {
    type: 'Feature',
    geometry: {
      type: 'Polygon',
      coordinates: [
        [
          [15.1, 46.1],
          [15.103, 46.1],
          [15.103, 46.103],
          [15.1, 46.103],
          [15.1, 46.1],
        ],
        [
          [15.101, 46.101],
          [15.101, 46.102],
          [15.102, 46.102],
          [15.102, 46.101],
          [15.101, 46.101],
        ],
      ],
    },
    properties: { name: 'Žitna njiva', size: 1.25, n: 7, made: '2024-03-09', wet: true },
  },
  {
    type: 'Feature',
    geometry: {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [15.2, 46.2],
            [15.201, 46.2],
            [15.201, 46.201],
            [15.2, 46.2],
          ],
        ],
        [
          [
            [15.21, 46.2],
            [15.211, 46.2],
            [15.211, 46.201],
            [15.21, 46.2],
          ],
        ],
      ],
    },
    properties: { name: 'Two', size: -0.5, n: 8, made: null, wet: false },
  },
  { type: 'Feature', geometry: null, properties: { name: 'None', size: null, n: 9, made: null, wet: null } },
]
const LINES: Feature[] = [
  {
    type: 'Feature',
    geometry: {
      type: 'LineString',
      coordinates: [
        [15.1, 46.1, 300],
        [15.2, 46.15, 310.5],
      ],
    },
    properties: { name: 'up' },
  },
  {
    type: 'Feature',
    geometry: {
      type: 'MultiLineString',
      coordinates: [
        [
          [15.1, 46.1, 1],
          [15.2, 46.15, 2],
        ],
        [
          [15.3, 46.1, 3],
          [15.4, 46.15, 4],
        ],
      ],
    },
    properties: { name: 'two' },
  },
]
const POINTS: Feature[] = [
  {
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [15.123456789, 46.987654321] },
    properties: { name: 'spot' },
  },
]

// X: files as GDAL 3.6.2 writes them, in lon/lat, UTM and the Slovene national grid (EPSG:3794).
describe.skipIf(!hasGdal)('what GDAL wrote is read', () => {
  const source = (name: string, features: Feature<Geometry | null>[]) => {
    writeFileSync(at(`${name}.geojson`), JSON.stringify({ type: 'FeatureCollection', features }))
    return at(`${name}.geojson`)
  }
  const look = (file: string, grid: string | null = null): Promise<Found> =>
    driverFor(file)!.look!(readFileSync(at(file)), how(file, grid))
  const featuresOf = ({ layers }: Found): FoundFeature[] => layers.flatMap(({ features }) => features)
  /** A tenth of a millimetre is 1e-9 of a degree; grids are reckoned by two programs, and KML is cut to 15 digits. */
  const NEAR_DEG = 2e-9

  const cases = [
    { file: 'lonlat.shz', args: ['-f', 'ESRI Shapefile', '-lco', 'ENCODING=UTF-8'] },
    { file: 'national.shz', args: ['-f', 'ESRI Shapefile', '-t_srs', 'EPSG:3794', '-lco', 'ENCODING=UTF-8'] },
    { file: 'latin2.shz', args: ['-f', 'ESRI Shapefile', '-lco', 'ENCODING=CP1250'] },
    { file: 'lonlat.gpkg', args: ['-f', 'GPKG'] },
    { file: 'utm.gpkg', args: ['-f', 'GPKG', '-t_srs', 'EPSG:32633'] },
    { file: 'libkml.kml', args: ['-f', 'LIBKML'] },
    { file: 'plain.kml', args: ['-f', 'KML'] },
    { file: 'libkml.kmz', args: ['-f', 'LIBKML'] },
    { file: 'wkt.csv', args: ['-f', 'CSV', '-lco', 'GEOMETRY=AS_WKT'] },
    { file: 'semicolon.csv', args: ['-f', 'CSV', '-lco', 'GEOMETRY=AS_WKT', '-lco', 'SEPARATOR=SEMICOLON'] },
    { file: 'rfc.geojson', args: ['-f', 'GeoJSON', '-lco', 'COORDINATE_PRECISION=15'] },
  ]
  it.each(cases)('$file', async ({ file, args }) => {
    ogr(...args, at(file), source('areas', GIVEN), '-nln', 'areas')
    const found = await look(file)
    expect(
      found.notes.map(({ reason }) => reason).filter((reason) => !/taken for WGS 84 as it stands/.test(reason)),
    ).toEqual([])
    const read = featuresOf(found)
    for (const given of GIVEN) {
      const one = read.find(
        ({ values }) => values.name === given.properties!.name || values.Name === given.properties!.name,
      )
      if (!given.geometry) {
        if (one) expect(one).toMatchObject({ geometry: null, flaws: [] })
        continue
      }
      expect(one?.flaws, String(given.properties!.name)).toEqual([])
      expect(one!.geometry!.type).toBe(given.geometry.type)
      expectSameShape(given.geometry, one!.geometry!, NEAR_DEG)
      if (file !== 'plain.kml') expect(Number(one!.values.size)).toBe(given.properties!.size)
    }
  })
  it.each(['lines.shz', 'lines.gpkg', 'lines.kml', 'lines.csv'])('%s, with heights', async (file) => {
    ogr(...(file.endsWith('csv') ? ['-lco', 'GEOMETRY=AS_WKT'] : []), at(file), source('lines', LINES))
    const read = featuresOf(await look(file))
    expect(read.map(({ geometry }) => geometry!.type)).toEqual(['LineString', 'MultiLineString'])
    expect([...positionsOf(read[0]!.geometry!)].map((p) => p[2])).toEqual([300, 310.5])
  })
  it('measured shapes (M), without their measures', async () => {
    ogr('-dim', 'XYM', at('m.shz'), source('lines', LINES))
    ogr('-dim', 'XYZM', at('m.gpkg'), source('lines', LINES))
    expect([...positionsOf(featuresOf(await look('m.shz'))[0]!.geometry!)].map((p) => p.length)).toEqual([2, 2])
    expect([...positionsOf(featuresOf(await look('m.gpkg'))[0]!.geometry!)].map((p) => p[2])).toEqual([300, 310.5])
  })
  it('GPX: tracks and waypoints', async () => {
    ogr('-f', 'GPX', at('line.gpx'), source('lines', LINES), '-nlt', 'MULTILINESTRING', '-nln', 'tracks')
    ogr('-f', 'GPX', at('spot.gpx'), source('points', POINTS))
    expect(featuresOf(await look('line.gpx')).map(({ values }) => values.name)).toEqual(['up', 'two'])
    const [spot] = featuresOf(await look('spot.gpx'))
    expectSameShape(POINTS[0]!.geometry, spot!.geometry!, NEAR_DEG)
  })
  it('CSV of x and y, in a grid that the person names', async () => {
    ogr('-f', 'CSV', '-t_srs', 'EPSG:32633', at('xy.csv'), source('points', POINTS), '-lco', 'GEOMETRY=AS_XY')
    expect(await look('xy.csv')).toMatchObject({ layers: [], asksGrid: true })
    const [spot] = featuresOf(await look('xy.csv', 'EPSG:32633'))
    expectSameShape(POINTS[0]!.geometry, spot!.geometry!, NEAR_DEG)
  })
})
