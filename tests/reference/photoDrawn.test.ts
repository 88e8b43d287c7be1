import geographiclib from 'geographiclib-geodesic'
import { ImageSource, MercatorCoordinate } from 'maplibre-gl'
import proj4 from 'proj4'
import { afterAll, describe, expect, it } from 'vitest'
import { crsOfEpsg } from '../../geo/photo/crs.ts'
import { drawnErrorM } from '../../geo/photo/drawnError.ts'
import { mostDrawnOffM, photoForMap } from '../../geo/photo/forMap.ts'
import { lonLatOfMercator, mercatorOf } from '../../geo/photo/mercator.ts'
import { pixelGround } from '../../geo/photo/pixelGround.ts'
import { readPixels } from '../../geo/photo/pixels.ts'
import { isPhotoFault, type PhotoCorners, type PlacedPhoto, type Raster } from '../../geo/photo/placement.ts'
import { placeByFit, placeByWorldFile } from '../../geo/photo/placePhoto.ts'
import { warpToMercator } from '../../geo/photo/warp.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { bench, gdal, gdalRaw, hasGdal } from './photoGdal.ts'

const files = bench()
afterAll(files.clear)

/** A square photo of `sideM` in UTM 17 north with its upper-left corner at a place, `sizePx` pixels a side. */
const utmPhoto = (at: LonLat, sideM: number, sizePx = 1000): PlacedPhoto => {
  const [east, north] = proj4('EPSG:4326', 'EPSG:32617', [at[0], at[1]])
  const px = sideM / sizePx
  const world = [px, 0, 0, -px, east! + px / 2, north! - px / 2].join('\n')
  const crs = crsOfEpsg(32617)
  if (isPhotoFault(crs)) throw new Error(crs.detail)
  const photo = placeByWorldFile(world, sizePx, sizePx, crs)
  if (isPhotoFault(photo)) throw new Error(photo.detail)
  return photo
}

interface Drawn {
  readonly corners: readonly { x: number; y: number }[]
  readonly warp: readonly [number, number, number]
  readonly z: number
  readonly tile: readonly [number, number]
}

/** What MapLibre itself makes of four corners: rounded, in 1/8192 of a tile, and its perspective terms. */
const drawnByMapLibre = (coordinates: PhotoCorners): Drawn => {
  const source = new ImageSource(
    'photo',
    { type: 'image', url: '', coordinates: [] as never },
    {} as never,
    null as never,
  )
  const worldFromLngLat = (lng: number, lat: number): MercatorCoordinate => MercatorCoordinate.fromLngLat({ lng, lat })
  source.map = { style: { projection: { worldCoordinateHelper: { worldFromLngLat } } } } as never
  source.setCoordinates(coordinates as never)
  const { tileCoords, tileID, imageWarp } = source
  return { corners: tileCoords, warp: imageWarp, z: tileID.z, tile: [tileID.x, tileID.y] }
}

/** Where MapLibre's shader (raster.vertex.glsl of maplibre-gl 6.17, projective branch) draws a part of the image, on the map of side 1. */
const shaderAt = ({ corners, warp, z, tile }: Drawn, u: number, v: number): [number, number] => {
  const [tl, tr, br, bl] = corners as [
    Drawn['corners'][0],
    Drawn['corners'][0],
    Drawn['corners'][0],
    Drawn['corners'][0],
  ]
  const [p, q, blend] = warp
  const w = p * u + q * v + 1
  const place = (k: 'x' | 'y'): number => {
    const projective = ((tr[k] - tl[k] + p * tr[k]) * u + (bl[k] - tl[k] + q * bl[k]) * v + tl[k]) / w
    const bilinear = (1 - v) * ((1 - u) * tl[k] + u * tr[k]) + v * ((1 - u) * bl[k] + u * br[k])
    return (1 - blend) * projective + blend * bilinear
  }
  return [(tile[0] + place('x') / 8192) / 2 ** z, (tile[1] + place('y') / 8192) / 2 ** z]
}

const apartM = (a: LonLat, b: LonLat): number =>
  geographiclib.Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0]).s12 ?? Number.NaN

/** Worst distance of a drawn photo from its true place, by MapLibre's own corners and GeographicLib. */
const measuredM = (photo: PlacedPhoto): number => {
  const drawn = drawnByMapLibre(photo.corners)
  const ground = pixelGround(photo)
  let worst = 0
  for (let i = 0; i <= 16; i += 1)
    for (let j = 0; j <= 16; j += 1) {
      const there = lonLatOfMercator(shaderAt(drawn, i / 16, j / 16))
      worst = Math.max(worst, apartM(there, ground.lonLatOf((i / 16) * photo.widthPx, (j / 16) * photo.heightPx)))
    }
  return worst
}

const places: LonLat[] = [0.5, 30, 45, 60, 70].flatMap((lat) => [-81, -79.5, -78].map((lon): LonLat => [lon, lat]))
/** The same place, moved a little in many ways, so that rounding falls differently. */
const moved = ([lon, lat]: LonLat): LonLat[] =>
  Array.from({ length: 6 }, (_, i) => [lon + 0.000617 * i, lat + 0.000911 * i])

describe('a photo drawn by MapLibre through its four corners', () => {
  it('lies as far off as is reckoned', () => {
    for (const sideM of [40, 500, 1000, 2000])
      for (const at of places) {
        const photo = utmPhoto(at, sideM)
        expect(drawnErrorM(photo, photo.corners) / measuredM(photo)).toBeCloseTo(1, 1)
      }
  })

  // The measurement on which redrawing was decided (X: maplibre-gl 6.17, GeographicLib 2.2).
  it.each([
    [40, 0, 0.01],
    [500, 0.05, 0.1],
    [1000, 0.1, 0.25],
    [2000, 0.3, 0.7],
  ])('of %i m lies off by %f to %f m at worst', (sideM, leastM, mostM) => {
    const worst = Math.max(...places.flatMap(moved).map((at) => measuredM(utmPhoto(at, sideM))))
    expect(worst).toBeGreaterThan(leastM)
    expect(worst).toBeLessThan(mostM)
  })
})

const blank = (widthPx: number, heightPx: number): Raster => {
  const rgba = new Uint8ClampedArray(4 * widthPx * heightPx).fill(255)
  return { rgba, widthPx, heightPx }
}

describe('a redrawn photo', () => {
  it('has corners that MapLibre’s rounding leaves where they are', () => {
    for (const sideM of [200, 500, 1000, 5000])
      for (const at of [...places.flatMap(moved), [-81, -0.0001] as const]) {
        const { corners } = warpToMercator(blank(8, 8), utmPhoto(at, sideM), 4096)
        const drawn = drawnByMapLibre(corners)
        expect(drawn.warp).toEqual([0, 0, 1])
        const pixels = [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ] as const
        for (const [i, [u, v]] of pixels.entries())
          expect(apartM(lonLatOfMercator(shaderAt(drawn, u, v)), corners[i]!)).toBeLessThan(1e-4)
      }
  })

  it('is only made where the corners alone would not do', () => {
    const near = utmPhoto([-81.99, 29.69], 40)
    const small = photoForMap(blank(10, 10), near, 4096)
    expect([small.isRedrawn, small.corners]).toEqual([false, near.corners])
    const far = utmPhoto([-81.99, 45.69], 1000)
    expect(drawnErrorM(far, far.corners)).toBeGreaterThan(mostDrawnOffM)
    expect(photoForMap(blank(10, 10), far, 4096).isRedrawn).toBe(true)
  })

  it('is in one piece on the 180th meridian', () => {
    const crs = crsOfEpsg(32601)
    if (isPhotoFault(crs)) throw new Error(crs.detail)
    const photo = placeByWorldFile('1\n0\n0\n-1\n169700.5\n1000899.5', 1000, 800, crs)
    if (isPhotoFault(photo)) throw new Error(photo.detail)
    for (const corners of [photo.corners, warpToMercator(blank(10, 8), photo, 4096).corners]) {
      const lons = corners.map(([lon]) => lon)
      expect(Math.max(...lons) - Math.min(...lons)).toBeLessThan(0.02)
      expect(Math.max(...lons.map(Math.abs))).toBeGreaterThan(180)
      expect(() => drawnByMapLibre(corners)).not.toThrow()
    }
  })

  // A raster whose colours tell its columns and rows; gdalwarp, exact (-et 0), bilinear, onto the very same pixels (X).
  it.skipIf(!hasGdal).each([
    ['500 m at 45° N', 'EPSG:32617', 600000, 5060000, 0.5, 0],
    ['turned, 1 km at 60° N', 'EPSG:32633', 400000, 6650000, 1, 0.2],
    ['4 km at 33° S', 'EPSG:32734', 260000, 6240000, 4, 0],
    ['lon/lat, 1 km', 'EPSG:4326', 12.5, 55.7, 1e-5, 0],
  ])('agrees with gdalwarp: %s', async (_name, srs, x0, y0, px, turn) => {
    const n = 1000
    const down = srs === 'EPSG:4326' ? px / 2 : px
    const ramp = (band: number, col: number, row: number): number =>
      band === 1
        ? Math.round((250 * col) / n)
        : band === 2
          ? Math.round((250 * row) / n)
          : Math.round(125 + 100 * Math.sin(col / 40) * Math.cos(row / 40))
    const samples = new Uint8Array(3 * n * n)
    for (let row = 0; row < n; row += 1)
      for (let col = 0; col < n; col += 1)
        for (const b of [1, 2, 3]) samples[(b - 1) * n * n + row * n + col] = ramp(b, col, row)
    files.writeBytes('ramp.raw', samples)
    const bands = [1, 2, 3].map(
      (b) =>
        `<VRTRasterBand dataType="Byte" band="${b}" subClass="VRTRawRasterBand"><SourceFilename relativetoVRT="1">ramp.raw</SourceFilename><ImageOffset>${(b - 1) * n * n}</ImageOffset><PixelOffset>1</PixelOffset><LineOffset>${n}</LineOffset></VRTRasterBand>`,
    )
    const geoTransform = [x0, px, turn * px, y0, turn * px, -down].join(',')
    const vrt = `<VRTDataset rasterXSize="${n}" rasterYSize="${n}"><SRS>${srs}</SRS><GeoTransform>${geoTransform}</GeoTransform>${bands.join('')}</VRTDataset>`
    gdal('gdal_translate', ['-q', files.write('ramp.vrt', vrt), files.path('ramp.tif')])

    const pixels = await readPixels(files.bytes('ramp.tif'), n)
    if (isPhotoFault(pixels)) throw new Error(pixels.detail)
    const crs = crsOfEpsg(Number(srs.slice(5)))
    if (isPhotoFault(crs)) throw new Error(crs.detail)
    const affine = { xPerCol: px, xPerRow: turn * px, x0, yPerCol: turn * px, yPerRow: -down, y0 }
    const photo = { widthPx: n, heightPx: n, placement: { affine, crs } }
    const { raster, corners } = warpToMercator(pixels, photo, 4096)
    const { widthPx, heightPx, rgba } = raster

    const around = 2 * Math.PI * 6378137
    const metres = ([lon, lat]: LonLat): [number, number] => {
      const [x, y] = mercatorOf([lon, lat])
      return [(x - 0.5) * around, (0.5 - y) * around]
    }
    const [west, north] = metres(corners[0])
    const [east, south] = metres(corners[2])
    const extent = ['-te', west, south, east, north, '-ts', widthPx, heightPx].map(String)
    gdal('gdalwarp', [
      '-q',
      '-t_srs',
      'EPSG:3857',
      '-et',
      '0',
      '-r',
      'bilinear',
      '-dstalpha',
      ...extent,
      files.path('ramp.tif'),
      files.path(`warped${x0}.tif`),
    ])
    const theirs = gdalRaw(files.path(`warped${x0}.tif`), files.path('warped.raw'))
    const count = widthPx * heightPx
    let compared = 0
    let worst = 0
    let edge = 0
    for (let i = 0; i < count; i += 1) {
      const isOn = theirs[3 * count + i] === 255
      if (isOn !== rgba[4 * i + 3]! > 127) edge += 1
      if (!isOn || rgba[4 * i + 3] !== 255) continue
      compared += 1
      for (const k of [0, 1, 2]) worst = Math.max(worst, Math.abs(theirs[k * count + i]! - rgba[4 * i + k]!))
    }
    expect(compared).toBeGreaterThan(0.5 * count)
    expect(edge).toBeLessThan(2 * (widthPx + heightPx))
    expect(worst).toBeLessThanOrEqual(1)
  })
})

/** A picture of `sideM` or so of level ground seen at a slant: its far side is three times as far away as its near one. */
const slantedPhoto = (sideM: number, sizePx: number, origin: LonLat): PlacedPhoto => {
  const px = sideM / sizePx
  const photo = placeByFit([px, px / 9, 30, px / 7, -px, 40, 0, -2 / (3 * sizePx), 1], origin, sizePx, sizePx)
  if (isPhotoFault(photo)) throw new Error(photo.detail)
  return photo
}

describe('a slanted picture', () => {
  it('is drawn true by MapLibre through its four corners, as far as is told', () => {
    for (const at of places) {
      const photo = slantedPhoto(20, 1000, at)
      expect(drawnErrorM(photo, photo.corners) / measuredM(photo)).toBeCloseTo(1, 1)
    }
  })

  it('is redrawn with every pixel in its place', () => {
    const side = 250
    const { rgba } = blank(side, side)
    for (let i = 0; i < side * side; i += 1) rgba.set([i % side, Math.floor(i / side), 0, 255], 4 * i)
    const photo = slantedPhoto(100, 4000, [-81.99, 45.69])
    const { raster, corners } = warpToMercator({ rgba, widthPx: side, heightPx: side }, photo, 2048)
    const [west, north] = mercatorOf(corners[0])
    const [east, south] = mercatorOf(corners[2])
    const tmerc = proj4('EPSG:4326', '+proj=tmerc +lat_0=45.69 +lon_0=-81.99 +k=1 +datum=WGS84 +units=m')
    let seen = 0
    for (let i = 0; i < raster.widthPx * raster.heightPx; i += 1) {
      if (raster.rgba[4 * i + 3] !== 255) continue
      // The picture's colours tell column and row; where the pixel's ground lies by the plane and the fit, by hand.
      const x = west + ((east - west) * ((i % raster.widthPx) + 0.5)) / raster.widthPx
      const y = north + ((south - north) * (Math.floor(i / raster.widthPx) + 0.5)) / raster.heightPx
      const [col, row] = [raster.rgba[4 * i]! + 0.5, raster.rgba[4 * i + 1]! + 0.5].map((v) => (v * 4000) / side)
      if (col! < 40 || row! < 40 || col! > 3960 || row! > 3960) continue
      const w = 1 - (2 * row!) / 12_000
      const px = 100 / 4000
      const ground = [(px * col! + (px / 9) * row! + 30) / w, ((px / 7) * col! - px * row! + 40) / w]
      const [lon, lat] = tmerc.inverse(ground as [number, number])
      const own = lonLatOfMercator([x, y])
      // Levels are whole columns of 16 pixels, which are up to 9 · 0.4 m on the far ground: half of one, and a tenth.
      const levelM = ((16 * 100) / 4000 / w) * (1 + 2 / (3 * w))
      expect(apartM(own, [lon!, lat!])).toBeLessThan(levelM)
      seen += 1
    }
    expect(seen).toBeGreaterThan(10_000)
  })
})
