import geographiclib from 'geographiclib-geodesic'
import { afterAll, expect, it } from 'vitest'
import { gridAt } from '../../geo/photo/affine.ts'
import { photoCorners } from '../../geo/photo/corners.ts'
import { crsOfEpsg, crsOfWkt } from '../../geo/photo/crs.ts'
import { readGeoTiff } from '../../geo/photo/geoTiff.ts'
import { isPhotoFault, type PhotoFault } from '../../geo/photo/placement.ts'
import { placeByWorldFile, placeGeoTiff } from '../../geo/photo/placePhoto.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import {
  bench,
  bytesOf,
  type Corner,
  gdal,
  gdalCorners,
  gdalLonLat,
  hasGdal,
  hasOsbs,
  makeTiff,
  osbs,
} from './photoGdal.ts'

const files = bench()
afterAll(files.clear)

const sound = <T extends object>(value: T | PhotoFault): T => {
  if (isPhotoFault(value)) throw new Error(`${value.field}: ${value.detail}`)
  return value
}

/** Geodesic distance in metres (GeographicLib). */
const apartM = (a: LonLat, b: LonLat): number =>
  geographiclib.Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0]).s12 ?? Number.NaN

const dms = (degrees: number, minutes: number, seconds: number): number => degrees + minutes / 60 + seconds / 3600

const cornerPixels = (width: number, height: number): Corner[] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
]

// Read with GDAL, in the README of the open data (C2). Its seconds have two decimals: up to 0.15 m north, 0.13 m east.
it.skipIf(!hasOsbs)('puts OSBS_029.tif where its README says that GDAL puts it', async () => {
  const reading = sound(await readGeoTiff(bytesOf(osbs)))
  expect([reading.widthPx, reading.heightPx, reading.crsName]).toEqual([400, 400, 'WGS 84 / UTM zone 17N'])
  const { affine } = reading.placement
  const [ulE, ulN] = gridAt(affine, 0, 0)
  const [lrE, lrN] = gridAt(affine, 400, 400)
  expect(ulE).toBeCloseTo(404211.9, 6)
  expect(ulN).toBeCloseTo(3285142.9, 6)
  expect(lrE).toBeCloseTo(404251.9, 6)
  expect(lrN).toBeCloseTo(3285102.9, 6)

  const photo = sound(await placeGeoTiff(bytesOf(osbs)))
  expect(photo.source).toBe('geotiff')
  expect(photo.notes).toEqual([])
  expect(apartM(photo.corners[0], [-dms(81, 59, 24.36), dms(29, 41, 33.66)])).toBeLessThan(0.2)
  expect(apartM(photo.corners[2], [-dms(81, 59, 22.86), dms(29, 41, 32.37)])).toBeLessThan(0.2)
})

// GDAL itself (X).
it.skipIf(!hasOsbs || !hasGdal)('puts the corners of OSBS_029.tif within a millimetre of GDAL', async () => {
  const photo = sound(await placeGeoTiff(bytesOf(osbs)))
  const told = gdalLonLat(osbs, cornerPixels(400, 400))
  for (const [i, corner] of photo.corners.entries()) expect(apartM(corner, told[i]!)).toBeLessThan(0.001)
  // 0.1 m in UTM at 404 km east: scale 0.9996 · (1 + (95.8 km)² / 2R²) = 0.99971, so 0.10003 m on the ground.
  expect(photo.groundSampleM).toBeCloseTo(0.1 / 0.99971, 5)
})

const grids = [
  ['UTM 17 north', 'EPSG:32617', [404000, 3285200, 404060, 3285160]],
  ['UTM 33 south', 'EPSG:32733', [712300, 7541200, 712420, 7541120]],
  ['UTM 60 south, on the 180th meridian', 'EPSG:32760', [817550, 8007300, 817850, 8007100]],
  ['UTM 1 north, on the 180th meridian', 'EPSG:32601', [170000, 1000700, 170300, 1000500]],
  ['UTM 32 north on ETRS89', 'EPSG:25832', [691200, 5334900, 691260, 5334860]],
  ['UTM 10 north on NAD83', 'EPSG:26910', [551000, 4180000, 551300, 4179800]],
  ['UTM 16 north on NAD83(2011)', 'EPSG:6345', [551000, 4480000, 551300, 4479800]],
  ['MGA 55 on GDA94', 'EPSG:28355', [320000, 5810000, 320300, 5809800]],
  ['MGA 56 on GDA2020', 'EPSG:7856', [334000, 6250000, 334300, 6249800]],
  ['UTM 23 south on SIRGAS 2000', 'EPSG:31983', [333000, 7394000, 333300, 7393800]],
  ['UTM 18 north on SIRGAS 2000', 'EPSG:31972', [600000, 515000, 600300, 514800]],
  ['lon/lat on WGS 84', 'EPSG:4326', [12.5, 55.7, 12.503, 55.698]],
  ['lon/lat counted to 360', 'EPSG:4326', [189.5, -17.7, 189.503, -17.702]],
  ['lon/lat on ETRS89', 'EPSG:4258', [12.5, 55.7, 12.503, 55.698]],
  ['lon/lat on NAD83', 'EPSG:4269', [-93.5, 42.1, -93.498, 42.098]],
  ['Web Mercator', 'EPSG:3857', [1391000, 7490500, 1391300, 7490300]],
] as const

/** The same meridian within half a turn of another. */
const near = ([lon, lat]: LonLat, about: LonLat): LonLat => [lon + 360 * Math.round((about[0] - lon) / 360), lat]

// GeoTIFFs made and read back by GDAL (X).
it.skipIf(!hasGdal).each(grids)('puts a photo in %s (%s) where GDAL does', async (name, srs, box) => {
  const file = `${srs.replace(':', '')}_${box[0]}.tif`
  makeTiff(files.path(file), srs, box, [60, 40])
  const photo = sound(await placeGeoTiff(files.bytes(file)))
  const own = gdalCorners(files.path(file))
  const told = gdalLonLat(files.path(file), cornerPixels(60, 40))
  for (const [i, [col, row]] of cornerPixels(60, 40).entries()) {
    const [x, y] = gridAt(photo.placement.affine, col, row)
    expect(x).toBeCloseTo(own[i]![0], 6)
    expect(y).toBeCloseTo(own[i]![1], 6)
    expect(apartM(photo.corners[i]!, near(told[i]!, photo.corners[i]!))).toBeLessThan(0.001)
  }
  const lons = photo.corners.map(([lon]) => lon)
  expect(Math.max(...lons) - Math.min(...lons)).toBeLessThan(0.01)
  expect(Math.abs((Math.max(...lons) + Math.min(...lons)) / 2)).toBeLessThanOrEqual(180)
  const crosses = Math.max(...lons) > 180 || Math.min(...lons) < -180
  expect(crosses).toBe(name.includes('180th meridian'))
})

// The pixel's area on the ellipsoid from GeographicLib's polygon area of the whole photo (X).
it.skipIf(!hasGdal).each(grids)('measures the pixel on the ground in %s (%s)', async (_name, srs, box) => {
  const file = `gsd_${srs.replace(':', '')}_${box[0]}.tif`
  makeTiff(files.path(file), srs, box, [60, 40])
  const photo = sound(await placeGeoTiff(files.bytes(file)))
  const polygon = geographiclib.Geodesic.WGS84.Polygon(false)
  for (const [lon, lat] of photo.corners) polygon.AddPoint(lat, lon)
  const areaM2 = Math.abs(polygon.Compute(false, true).area ?? Number.NaN)
  expect(photo.groundSampleM / Math.sqrt(areaM2 / 2400)).toBeCloseTo(1, 4)
})

/** A turned picture, told to GDAL through its own text format. */
const turned = (name: string, srs: string, geoTransform: readonly number[]): string => {
  const bands = [1, 2, 3].map((band) => `<VRTRasterBand dataType="Byte" band="${band}"/>`).join('')
  const text = `<VRTDataset rasterXSize="60" rasterYSize="40"><SRS>${srs}</SRS><GeoTransform>${geoTransform.join(',')}</GeoTransform>${bands}</VRTDataset>`
  return files.write(name, text)
}

// GDAL writes the turned one as ModelTransformation, the other with half a pixel taken off the tie point (X).
it.skipIf(!hasGdal)('reads a turned picture and one told for pixel centres as GDAL does', async () => {
  const vrt = turned('turned.vrt', 'EPSG:32633', [500100, 0.3, 0.1, 5400200, 0.09, -0.28])
  const cases = [
    ['turned.tif', []],
    ['turnedPoint.tif', ['-mo', 'AREA_OR_POINT=Point']],
  ] as const
  for (const [file, args] of cases) {
    gdal('gdal_translate', ['-q', ...args, vrt, files.path(file)])
    const photo = sound(await placeGeoTiff(files.bytes(file)))
    expect(photo.placement.affine.xPerRow).toBeCloseTo(0.1, 12)
    const told = gdalLonLat(files.path(file), cornerPixels(60, 40))
    for (const [i, corner] of photo.corners.entries()) expect(apartM(corner, told[i]!)).toBeLessThan(0.001)
  }

  makeTiff(files.path('area.tif'), 'EPSG:32617', [404000, 3285200, 404060, 3285160], [60, 40])
  gdal('gdal_translate', ['-q', '-mo', 'AREA_OR_POINT=Point', files.path('area.tif'), files.path('point.tif')])
  const area = files.bytes('area.tif')
  const point = files.bytes('point.tif')
  expect(Buffer.compare(Buffer.from(area), Buffer.from(point))).not.toBe(0)
  expect(sound(await placeGeoTiff(point)).corners).toEqual(sound(await placeGeoTiff(area)).corners)
  // Read as if for areas, the same tags would lie half a pixel off: GDAL can be told to.
  const ignored = gdal('gdalinfo', ['-json', '--config', 'GTIFF_POINT_GEO_IGNORE', 'TRUE', files.path('point.tif')])
  expect((JSON.parse(ignored) as { cornerCoordinates: { upperLeft: number[] } }).cornerCoordinates.upperLeft).toEqual([
    404000.5, 3285199.5,
  ])
})

// A world file and a .prj written by GDAL beside its own picture (X).
it.skipIf(!hasGdal)('places a picture by the world file and .prj that GDAL writes', async () => {
  makeTiff(files.path('plain.tif'), 'EPSG:25832', [691200, 5334900, 691260, 5334860], [60, 40])
  gdal('gdal_translate', ['-q', '-of', 'PNG', '-co', 'WORLDFILE=YES', files.path('plain.tif'), files.path('plain.png')])
  const world = new TextDecoder().decode(files.bytes('plain.wld'))
  const prj = gdal('gdalsrsinfo', ['-o', 'wkt_esri', 'EPSG:25832']).trim()
  const told = gdalLonLat(files.path('plain.tif'), cornerPixels(60, 40))
  for (const crs of [sound(crsOfWkt(prj)), sound(crsOfEpsg(25832))]) {
    const photo = sound(placeByWorldFile(world, 60, 40, crs))
    for (const [i, corner] of photo.corners.entries()) expect(apartM(corner, told[i]!)).toBeLessThan(0.001)
  }
})

const prjOf = (style: string, srs: string): string => gdal('gdalsrsinfo', ['-o', style, srs]).trim()

const nationalGrids = [
  ['EPSG:2154', 652000, 6862000, 0.01, /up to 2 m/],
  ['EPSG:2227', 6000000, 2100000, 0.01, /up to 2 m/],
  ['EPSG:27700', 430000, 560000, 5, /several metres/],
] as const

// Esri's and OGC's WKT 1 as GDAL writes it, and its corners (X): to a centimetre where datums are one, within the told
// error where proj4's seven parameters stand in for a shift, and refused where the shift is not known.
it.skipIf(!hasGdal).each(['wkt1', 'wkt_esri'])('reads a .prj of a national grid in %s, or says it cannot', (style) => {
  for (const [srs, x, y, mostM, caution] of nationalGrids) {
    const affine = { xPerCol: 1, xPerRow: 0, x0: x, yPerCol: 0, yPerRow: -1, y0: y }
    const crs = sound(crsOfWkt(prjOf(style, srs)))
    const corners = sound(photoCorners({ widthPx: 60, heightPx: 40, placement: { affine, crs } }))
    makeTiff(files.path('national.tif'), srs, [x, y, x + 60, y - 40], [60, 40])
    const told = gdalLonLat(files.path('national.tif'), cornerPixels(60, 40))
    for (const [i, corner] of corners.entries()) expect(apartM(corner, told[i]!)).toBeLessThan(mostM)
    expect(crs.caution).toMatch(caution)
  }
  expect(sound(crsOfWkt(prjOf(style, 'EPSG:32633'))).caution).toBeNull()
  for (const srs of ['EPSG:26717', 'EPSG:31467'])
    expect(crsOfWkt(prjOf(style, srs))).toMatchObject({
      kind: 'photo',
      field: 'crs',
      detail: expect.stringMatching(/datum/),
    })
})

// The code is EPSG's for the grid that GDAL wrote into the file (X).
it.skipIf(!hasGdal).each([
  ['EPSG:27700', /EPSG:27700 .*gdalwarp -t_srs EPSG:4326/],
  ['EPSG:26717', /EPSG:26717/],
  ['+proj=cass +lat_0=47 +lon_0=9 +datum=WGS84', /grid of its own/],
  ['+proj=longlat +ellps=intl', /shift from the datum/],
])('says what to do with a photo in %s', async (srs, detail) => {
  makeTiff(files.path('other.tif'), srs, [430, 560, 490, 520], [60, 40])
  const answer = await placeGeoTiff(files.bytes('other.tif'))
  expect(answer).toMatchObject({ kind: 'photo', field: 'crs', detail: expect.stringMatching(detail) })
})

it.skipIf(!hasGdal)('says that a picture without a place needs one, and one without a grid needs that', async () => {
  makeTiff(files.path('full.tif'), 'EPSG:32617', [404000, 3285200, 404060, 3285160], [60, 40])
  gdal('gdal_translate', ['-q', '-co', 'PROFILE=BASELINE', files.path('full.tif'), files.path('bare.tif')])
  expect(await placeGeoTiff(files.bytes('bare.tif'))).toMatchObject({
    kind: 'photo',
    field: 'georeference',
    detail: expect.stringMatching(/world file .* or control points/),
  })
  const gridless = turned('gridless.vrt', '', [404000, 1, 0, 3285200, 0, -1])
  gdal('gdal_translate', ['-q', gridless, files.path('gridless.tif')])
  expect(await placeGeoTiff(files.bytes('gridless.tif'))).toMatchObject({ kind: 'photo', field: 'crs' })
  const gcps = [
    ['0', '0', '404000', '3285200'],
    ['60', '0', '404060', '3285201'],
    ['0', '40', '404001', '3285160'],
  ]
  const args = gcps.flatMap((gcp) => ['-gcp', ...gcp])
  gdal('gdal_translate', ['-q', ...args, '-a_srs', 'EPSG:32617', files.path('bare.tif'), files.path('gcps.tif')])
  expect(await placeGeoTiff(files.bytes('gcps.tif'))).toMatchObject({
    kind: 'photo',
    field: 'georeference',
    detail: expect.stringMatching(/control points/),
  })
})
