import { readFile } from 'node:fs/promises'
import geographiclib from 'geographiclib-geodesic'
import { afterAll, expect, it } from 'vitest'
import { gridBookOf } from '../../geo/photo/gridBook.ts'
import { pixelGround } from '../../geo/photo/pixelGround.ts'
import { isPhotoFault, type PhotoFault } from '../../geo/photo/placement.ts'
import { placeGeoTiff } from '../../geo/photo/placePhoto.ts'
import { crsOfTyped } from '../../geo/photo/typedCrs.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { gridFile } from '../../geo/store/template/gridFile.ts'
import { bench, type Corner, gdal, gdalLonLat, hasGdal, makeTiff } from './photoGdal.ts'

const files = bench()
afterAll(files.clear)

const book = gridBookOf(async () => readFile(await gridFile(), 'utf8'))

const sound = <T extends object>(value: T | PhotoFault): T => {
  if (isPhotoFault(value)) throw new Error(`${value.field}: ${value.detail}`)
  return value
}

/** Geodesic distance in metres (GeographicLib). */
const apartM = (a: LonLat, b: LonLat): number =>
  geographiclib.Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0]).s12 ?? Number.NaN

const WIDTH = 600
const HEIGHT = 400
/** Corners and a grid of inner places, in pixels. */
const places: Corner[] = [0, 0.21, 0.5, 0.83, 1].flatMap((v) =>
  [0, 0.17, 0.5, 0.79, 1].map((u): Corner => [u * WIDTH, v * HEIGHT]),
)

const worstM = async (name: string): Promise<{ offM: number; caution: readonly string[]; crs: string }> => {
  const photo = sound(await placeGeoTiff(files.bytes(name), book))
  const ground = pixelGround(photo)
  const told = gdalLonLat(files.path(name), places)
  const off = places.map(([col, row], i) => apartM(ground.lonLatOf(col, row), told[i]!))
  const back = places.map(([col, row], i) => {
    const [c, r] = ground.pixelOf(told[i]!)
    return Math.hypot(c - col, r - row)
  })
  expect(Math.max(...back)).toBeLessThan(0.05)
  return { offM: Math.max(...off), caution: photo.notes, crs: photo.crs }
}

// Made by GDAL with the grid's EPSG code in the tags, of some kilometres a side, and asked of gdaltransform (X).
it.skipIf(!hasGdal).each([
  ['UTM 33 north', 'EPSG:32633', [400000, 5400000, 406000, 5396000], /^$/],
  ['UTM 34 south', 'EPSG:32734', [260000, 6240000, 266000, 6236000], /^$/],
  ['longitude and latitude', 'EPSG:4326', [12.5, 55.7, 12.56, 55.66], /^$/],
  ['Web Mercator', 'EPSG:3857', [1391000, 7490500, 1397000, 7486500], /^$/],
  ['a transverse Mercator (Poland)', 'EPSG:2180', [630000, 490000, 636000, 486000], /up to 2 m/],
  ['a transverse Mercator (Sweden)', 'EPSG:3006', [670000, 6580000, 676000, 6576000], /up to 2 m/],
  ['a transverse Mercator (New Zealand)', 'EPSG:2193', [1570000, 5180000, 1576000, 5176000], /up to 2 m/],
  ['a Lambert conic, 2 parallels (France)', 'EPSG:2154', [652000, 6862000, 658000, 6858000], /up to 2 m/],
  ['a Lambert conic in US feet (N. Carolina)', 'EPSG:2264', [2100000, 740000, 2120000, 726000], /up to 2 m/],
  ['an Albers equal area (USA)', 'EPSG:5070', [500000, 1900000, 506000, 1896000], /up to 2 m/],
  ['a Lambert azimuthal (Europe)', 'EPSG:3035', [4321000, 3210000, 4327000, 3206000], /up to 2 m/],
] as const)('lays a photo in %s (%s) where gdaltransform does', async (_name, srs, box, caution) => {
  const name = `${srs.slice(5)}.tif`
  makeTiff(files.path(name), srs, box, [WIDTH, HEIGHT])
  const told = await worstM(name)
  expect(told.offM).toBeLessThan(0.01)
  expect(told.caution.join(' ')).toMatch(caution)
})

// The same with a grid of the file's own, defined by GeoKeys that GDAL writes (X).
it.skipIf(!hasGdal).each([
  [
    'a transverse Mercator',
    '+proj=tmerc +lat_0=49 +lon_0=7.25 +k=0.99997 +x_0=250000 +y_0=-60000 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m',
    [251000, 80000, 257000, 76000],
  ],
  [
    'a transverse Mercator in feet',
    '+proj=tmerc +lat_0=33 +lon_0=-97 +k=1 +x_0=152400.3048006096 +y_0=0 +datum=WGS84 +units=us-ft',
    [500000, 90000, 520000, 76000],
  ],
  [
    'a Lambert conic with 1 parallel',
    '+proj=lcc +lat_1=46.5 +lat_0=46.5 +lon_0=3 +k_0=0.99987742 +x_0=600000 +y_0=200000 +datum=WGS84 +units=m',
    [652000, 262000, 658000, 258000],
  ],
  [
    'a Lambert conic with 2 parallels',
    '+proj=lcc +lat_1=40.5 +lat_2=41.7 +lat_0=40 +lon_0=-77 +x_0=600000 +y_0=0 +datum=NAD83 +units=m',
    [612000, 62000, 618000, 58000],
  ],
  [
    'a Lambert conic with a shift',
    '+proj=lcc +lat_1=49.5 +lat_0=49.5 +lon_0=4 +k_0=1 +x_0=100 +y_0=200 +ellps=intl +towgs84=-87,-98,-121 +units=m',
    [2000, 8000, 8000, 4000],
  ],
] as const)('lays a photo in %s of its own where gdaltransform does', async (_name, srs, box) => {
  const name = `own${box[0]}.tif`
  makeTiff(files.path(name), srs, box, [WIDTH, HEIGHT])
  expect((await worstM(name)).offM).toBeLessThan(0.01)
})

// Datums with a shift of their own: the registry's for the whole country, against what GDAL takes (X).
it.skipIf(!hasGdal).each([
  ['EPSG:27700', [430000, 560000, 436000, 556000]],
  ['EPSG:31467', [3550000, 5500000, 3556000, 5496000]],
  ['EPSG:28992', [155000, 463000, 161000, 459000]],
] as const)('says that a photo in %s may lie some metres off, and is no more off than that', async (srs, box) => {
  const name = `${srs.slice(5)}.tif`
  makeTiff(files.path(name), srs, box, [WIDTH, HEIGHT])
  const told = await worstM(name)
  expect(told.offM).toBeLessThan(6)
  expect(told.caution.join(' ')).toMatch(/several metres/)
})

it.skipIf(!hasGdal).each([
  ['EPSG:26717', [404000, 3285200, 404600, 3284800], /shift/],
  [
    '+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=0 +y_0=0 +ellps=bessel +units=m',
    [1000, 5400000, 1600, 5399600],
    /shift from the datum/,
  ],
  ['+proj=cass +lat_0=10 +lon_0=-61 +x_0=0 +y_0=0 +datum=WGS84', [1000, 2000, 1600, 1600], /grid of its own/],
  ['EPSG:32161', [200000, 250000, 200600, 249600], null],
] as const)('never lays a photo in silence where the shift of %s is not known', async (srs, box, detail) => {
  makeTiff(files.path('unsure.tif'), srs, box, [WIDTH, HEIGHT])
  const answer = await placeGeoTiff(files.bytes('unsure.tif'), book)
  if (detail === null) expect(isPhotoFault(answer)).toBe(false)
  else expect(answer).toMatchObject({ field: 'crs', detail: expect.stringMatching(detail) })
  if (detail !== null)
    expect(answer).toMatchObject({ detail: expect.stringMatching(/EPSG code.*PROJ string.*\+towgs84/) })
})

// What the person types goes before the file; gdaltransform is told the same (X).
it.skipIf(!hasGdal)('lays a photo in the grid that the person gives', async () => {
  const bessel = '+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=0 +y_0=0 +ellps=bessel'
  const shift = '+towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7'
  makeTiff(files.path('bessel.tif'), `${bessel} +units=m`, [1000, 5400000, 1600, 5399600], [WIDTH, HEIGHT])
  const crs = sound(await crsOfTyped(`${bessel} ${shift}`, book))
  expect(crs.caution).toMatch(/several metres/)
  const photo = sound(await placeGeoTiff(files.bytes('bessel.tif'), book, crs))
  const [lon, lat] = gdal(
    'gdaltransform',
    ['-s_srs', `${bessel} ${shift}`, '-t_srs', 'EPSG:4326', '-output_xy'],
    '1000 5400000',
  )
    .trim()
    .split(' ')
    .map(Number)
  expect(apartM(photo.corners[0], [lon!, lat!])).toBeLessThan(0.01)

  expect(sound(await crsOfTyped(bessel, book)).caution).toMatch(/not told.*hundreds of metres/)
  expect(sound(await crsOfTyped(' epsg: 2154 ', book)).name).toBe('RGF93 / Lambert-93')
  expect(sound(await crsOfTyped('32633', book)).caution).toBeNull()
  for (const [typed, detail] of [
    ['EPSG:999999', /EPSG:999999/],
    ['Lambert', /EPSG code/],
    ['+proj=nothing +ellps=GRS80', /could not be read|nothing/],
  ] as const)
    expect(await crsOfTyped(typed, book)).toMatchObject({ field: 'crs', detail: expect.stringMatching(detail) })
})
