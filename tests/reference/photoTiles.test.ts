import { open } from 'node:fs/promises'
import { afterAll, describe, expect, it } from 'vitest'
import { makeBlockCache } from '../../geo/photo/blockCache.ts'
import type { ByteSource } from '../../geo/photo/byteSource.ts'
import { drawTile, squareOf } from '../../geo/photo/drawTile.ts'
import { openTiff } from '../../geo/photo/openTiff.ts'
import { pixelGround } from '../../geo/photo/pixelGround.ts'
import { isPhotoFault, type PhotoFault, type Raster } from '../../geo/photo/placement.ts'
import { placeGeoTiff } from '../../geo/photo/placePhoto.ts'
import { tiffLevels } from '../../geo/photo/tiffLevels.ts'
import { bench, gdal, gdalRaw, hasGdal } from './photoGdal.ts'

const files = bench()
afterAll(files.clear)

const sound = <T extends object>(value: T | PhotoFault): T => {
  if (isPhotoFault(value)) throw new Error(`${value.field}: ${value.detail}`)
  return value
}

/** A file on the disk that counts what is read of it. */
const counted = async (path: string): Promise<ByteSource & { taken: number; close(): Promise<void> }> => {
  const file = await open(path)
  const { size } = await file.stat()
  const source = {
    bytes: size,
    taken: 0,
    async read(at: number, length: number) {
      const into = new Uint8Array(Math.max(0, Math.min(length, size - at)))
      await file.read(into, 0, into.length, at)
      source.taken += into.length
      return into
    },
    close: () => file.close(),
  }
  return source
}

const N = 1200
/** A smooth picture whose colours tell its columns and rows, as raw samples for GDAL. */
const ramp = (bits: 8 | 16): Uint8Array => {
  const samples = bits === 8 ? new Uint8Array(3 * N * N) : new Uint16Array(3 * N * N)
  const most = bits === 8 ? 250 : 40000
  for (let row = 0; row < N; row += 1)
    for (let col = 0; col < N; col += 1) {
      const at = row * N + col
      samples[at] = (most * col) / N
      samples[N * N + at] = (most * row) / N
      samples[2 * N * N + at] = most * (0.5 + 0.4 * Math.sin(col / 60) * Math.cos(row / 60))
    }
  return new Uint8Array(samples.buffer)
}

const vrt = (name: string, srs: string, geoTransform: readonly number[], bits: 8 | 16 = 8): string => {
  files.writeBytes(`ramp${bits}.raw`, ramp(bits))
  const size = bits / 8
  const bands = [1, 2, 3].map(
    (b) =>
      `<VRTRasterBand dataType="${bits === 8 ? 'Byte' : 'UInt16'}" band="${b}" subClass="VRTRawRasterBand"><SourceFilename relativetoVRT="1">ramp${bits}.raw</SourceFilename><ImageOffset>${(b - 1) * N * N * size}</ImageOffset><PixelOffset>${size}</PixelOffset><LineOffset>${N * size}</LineOffset><ByteOrder>LSB</ByteOrder></VRTRasterBand>`,
  )
  return files.write(
    name,
    `<VRTDataset rasterXSize="${N}" rasterYSize="${N}"><SRS>${srs}</SRS><GeoTransform>${geoTransform.join(',')}</GeoTransform>${bands.join('')}</VRTDataset>`,
  )
}

const tiled = ['-co', 'TILED=YES', '-co', 'BLOCKXSIZE=256', '-co', 'BLOCKYSIZE=256']

const drawn = async (name: string, cacheBytes = 64e6) => {
  const source = await counted(files.path(name))
  const photo = sound(await placeGeoTiff(source))
  const { levels } = sound(await tiffLevels(sound(await openTiff(source)), 'photo'))
  const ground = pixelGround(photo)
  const cache = makeBlockCache(cacheBytes)
  /** The tile that holds a place of the photo, at a zoom. */
  const tileAt = (col: number, row: number, z: number) => {
    const [lon, lat] = ground.lonLatOf(col, row)
    const y = (1 - Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360)) / Math.PI) / 2
    return { z, x: Math.floor(((lon + 180) / 360) * 2 ** z), y: Math.floor(y * 2 ** z) }
  }
  const draw = (tile: ReturnType<typeof tileAt>) => drawTile(levels, photo, ground, squareOf(tile), 256, cache)
  return { source, photo, levels, cache, tileAt, draw }
}

const around = 2 * Math.PI * 6378137

/** The same tile by gdalwarp, exact (-et 0), bilinear (X). */
const warped = (name: string, { z, x, y }: { z: number; x: number; y: number }): Uint8Array => {
  const side = around / 2 ** z
  const west = x * side - around / 2
  const north = around / 2 - y * side
  const extent = ['-te', west, north - side, west + side, north, '-ts', 256, 256].map(String)
  const out = files.path('tile.tif')
  gdal('gdalwarp', [
    '-q',
    '-overwrite',
    '-t_srs',
    'EPSG:3857',
    '-et',
    '0',
    '-ovr',
    'NONE',
    '-r',
    'bilinear',
    '-dstalpha',
    ...extent,
    files.path(name),
    out,
  ])
  return gdalRaw(out, files.path('tile.raw'))
}

const compare = ({ rgba }: Raster, theirs: Uint8Array) => {
  const count = 256 * 256
  let both = 0
  let edge = 0
  let worst = 0
  for (let i = 0; i < count; i += 1) {
    const isOn = theirs[3 * count + i]! > 127
    if (isOn !== rgba[4 * i + 3]! > 127) edge += 1
    if (!isOn || rgba[4 * i + 3] !== 255) continue
    both += 1
    for (const k of [0, 1, 2]) worst = Math.max(worst, Math.abs(theirs[k * count + i]! - rgba[4 * i + k]!))
  }
  return { both, edge, worst }
}

describe('a tile of the map', () => {
  // gdalwarp onto the very same pixels (X).
  it.skipIf(!hasGdal).each([
    ['UTM 33 north', 'EPSG:32633', [400000, 0.5, 0, 5400000, 0, -0.5], [], 18],
    ['UTM 34 south, turned', 'EPSG:32734', [260000, 0.5, 0.1, 6240000, 0.1, -0.5], tiled, 18],
    ['longitude and latitude', 'EPSG:4326', [12.5, 1e-5, 0, 55.7, 0, -5e-6], tiled, 18],
    ['Web Mercator', 'EPSG:3857', [1391000, 0.6, 0, 7490500, 0, -0.6], ['-co', 'COMPRESS=LZW', ...tiled], 18],
    [
      'Lambert-93',
      '+proj=lcc +lat_1=49 +lat_2=44 +lat_0=46.5 +lon_0=3 +x_0=700000 +y_0=6600000 +datum=WGS84',
      [652000, 0.5, 0, 6862000, 0, -0.5],
      ['-co', 'COMPRESS=DEFLATE', '-co', 'BIGTIFF=YES', ...tiled],
      18,
    ],
  ] as const)('agrees with gdalwarp in %s', async (name, srs, geoTransform, options, z) => {
    const file = `${name.replace(/\W/g, '')}.tif`
    gdal('gdal_translate', ['-q', ...options, vrt('ramp.vrt', srs, geoTransform), files.path(file)])
    const { draw, tileAt, source } = await drawn(file)
    for (const [col, row] of [
      [N / 2, N / 2],
      [2, 2],
      [N - 2, N - 2],
    ] as const) {
      const tile = tileAt(col, row, z)
      const raster = await draw(tile)
      if (raster === null || raster === 'too large') throw new Error(String(raster))
      const { both, edge, worst } = compare(raster, warped(file, tile))
      expect(both).toBeGreaterThan(col === N / 2 ? 65000 : 100)
      expect(edge).toBeLessThan(600)
      expect(worst).toBeLessThanOrEqual(1)
    }
    await source.close()
  })

  it.skipIf(!hasGdal).each([
    ['a cloud-optimised file', ['-of', 'COG', '-co', 'BLOCKSIZE=256', '-co', 'COMPRESS=DEFLATE']],
    ['JPEG', ['-of', 'COG', '-co', 'BLOCKSIZE=256', '-co', 'COMPRESS=JPEG', '-co', 'QUALITY=95']],
    ['16 bits', ['-of', 'COG', '-co', 'BLOCKSIZE=256', '-co', 'COMPRESS=LZW', '-co', 'PREDICTOR=YES']],
  ])('is read by window and overview from %s', async (kind, options) => {
    const file = `cog${kind.length}.tif`
    gdal('gdal_translate', [
      '-q',
      ...options,
      vrt('ramp.vrt', 'EPSG:32633', [400000, 0.5, 0, 5400000, 0, -0.5], kind === '16 bits' ? 16 : 8),
      files.path(file),
    ])
    const { draw, tileAt, source, levels, cache } = await drawn(file, 2e6)
    expect(levels.length).toBeGreaterThan(1)
    // Drawn at any zoom the picture is the same ramp: column and row come out of red and green.
    for (const z of [15, 16, 17, 18, 19]) {
      const tile = tileAt(N / 2, N / 2, z)
      const raster = await draw(tile)
      if (raster === null || raster === 'too large') throw new Error(String(raster))
      if (kind !== '16 bits') {
        const { both, worst } = compare(raster, warped(file, tile))
        expect(both).toBeGreaterThan(500)
        // gdalwarp, told to take no overview, skips pixels where we average: the ramp differs by its slope.
        expect(worst).toBeLessThanOrEqual(kind === 'JPEG' ? 20 : 12)
      }
      expect(cache.bytes).toBeLessThanOrEqual(2e6)
    }
    await source.close()
  })

  it.skipIf(!hasGdal)('costs the bytes of its own blocks, not those of the file', async () => {
    const made = vrt('ramp.vrt', 'EPSG:32633', [400000, 0.5, 0, 5400000, 0, -0.5])
    gdal('gdal_translate', ['-q', ...tiled, made, files.path('plain.tif')])
    const { draw, tileAt, source } = await drawn('plain.tif')
    const before = source.taken
    expect(before).toBeLessThan(600_000)
    await draw(tileAt(N / 2, N / 2, 19))
    // At most 3 × 3 blocks of 256 × 256 × 3 bytes.
    expect(source.taken - before).toBeLessThanOrEqual(9 * 256 * 256 * 3)
    expect(source.taken - before).toBeGreaterThan(256 * 256 * 3 - 1)
    const after = source.taken
    await draw(tileAt(N / 2, N / 2, 19))
    expect(source.taken).toBe(after)
    expect(await draw({ z: 19, x: 1, y: 1 })).toBeNull()
    await source.close()
  })

  // One strip for the whole picture, unpacked: its rows are read by parts, the same as GDAL's (X).
  it.skipIf(!hasGdal)('is read by parts from a picture that is a single strip', async () => {
    const made = vrt('ramp.vrt', 'EPSG:32633', [400000, 0.5, 0, 5400000, 0, -0.5])
    for (const [file, ...more] of [
      ['strip.tif', '-co', 'INTERLEAVE=PIXEL'],
      ['apart.tif', '-co', 'INTERLEAVE=BAND'],
    ] as const) {
      gdal('gdal_translate', ['-q', '-co', `BLOCKYSIZE=${N}`, ...more, made, files.path(file)])
      const { draw, tileAt, source, levels } = await drawn(file)
      expect(levels[0]!.blockHeightPx).toBeLessThan(N / 2)
      const tile = tileAt(N / 2, N / 2, 19)
      const raster = await draw(tile)
      if (raster === null || raster === 'too large') throw new Error(String(raster))
      expect(source.taken).toBeLessThan(0.75 * source.bytes)
      const { both, worst } = compare(raster, warped(file, tile))
      expect(both).toBeGreaterThan(65000)
      expect(worst).toBeLessThanOrEqual(1)
      await source.close()
    }
  })
})
