import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type PhotoPixels, readPixels } from '../../geo/photo/pixels.ts'
import { isPhotoFault } from '../../geo/photo/placement.ts'
import { bench, gdal, gdalRaw, hasGdal, hasOsbs, osbs } from './photoGdal.ts'

// Every check here is against GDAL's own decoding of the same file (X).

const files = bench()
afterAll(files.clear)

const decode = async (name: string, maxSidePx = 400): Promise<PhotoPixels> => {
  const pixels = await readPixels(files.bytes(name), maxSidePx)
  if (isPhotoFault(pixels)) throw new Error(pixels.detail)
  return pixels
}

const translate = (args: readonly string[], from: string, to: string): void => {
  gdal('gdal_translate', ['-q', ...args, from, files.path(to)])
}

/** One band of decoded pixels: 0 red … 3 opacity. */
const band = ({ rgba }: PhotoPixels, k: number): number[] =>
  Array.from({ length: rgba.length / 4 }, (_, i) => rgba[4 * i + k]!)

const colours = (pixels: PhotoPixels): number[] => [0, 1, 2].flatMap((k) => band(pixels, k))

const worst = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  if (a.length !== b.length) throw new Error(`${a.length} values against ${b.length}`)
  let most = 0
  for (let i = 0; i < a.length; i += 1) most = Math.max(most, Math.abs(a[i]! - b[i]!))
  return most
}

const meanOff = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0
  for (let i = 0; i < a.length; i += 1) sum += Math.abs(a[i]! - b[i]!)
  return sum / a.length
}

describe.skipIf(!hasGdal || !hasOsbs)('pixels of a real photo', () => {
  let raw: Uint8Array<ArrayBuffer>
  beforeAll(() => {
    translate(['-a_nodata', 'none'], osbs, 'plain.tif')
    raw = gdalRaw(files.path('plain.tif'), files.path('plain.raw'))
    gdal('gdalwarp', [
      '-q',
      '-t_srs',
      'EPSG:3857',
      '-dstalpha',
      '-srcnodata',
      'none',
      files.path('plain.tif'),
      files.path('alpha.tif'),
    ])
  })

  it('are the same whichever way the file is laid out', async () => {
    const layouts: Record<string, string[]> = {
      lzw: ['-co', 'COMPRESS=LZW', '-co', 'PREDICTOR=2'],
      tiled: ['-co', 'TILED=YES', '-co', 'BLOCKXSIZE=128', '-co', 'BLOCKYSIZE=128', '-co', 'COMPRESS=DEFLATE'],
      bands: ['-co', 'INTERLEAVE=BAND', '-co', 'COMPRESS=PACKBITS'],
      big: ['-co', 'BIGTIFF=YES', '-co', 'ENDIANNESS=BIG'],
      zstd: ['-co', 'COMPRESS=ZSTD'],
      strip: ['-co', 'BLOCKYSIZE=400'],
    }
    for (const [name, args] of Object.entries(layouts)) {
      translate(args, files.path('plain.tif'), `${name}.tif`)
      const pixels = await decode(`${name}.tif`)
      expect([name, worst(colours(pixels), raw)]).toEqual([name, 0])
      expect(band(pixels, 3).every((opacity) => opacity === 255)).toBe(true)
      expect(pixels.notes).toEqual([])
    }
  })

  it('have no-data see-through only where every band says so', async () => {
    translate([], osbs, 'noData.tif')
    const pixels = await decode('noData.tif')
    const n = 400 * 400
    const isEmpty = Array.from({ length: n }, (_, i) => raw[i] === 255 && raw[n + i] === 255 && raw[2 * n + i] === 255)
    const partly = Array.from({ length: n }, (_, i) => raw[i] === 255 || raw[n + i] === 255 || raw[2 * n + i] === 255)
    expect(partly.filter(Boolean).length).toBeGreaterThan(isEmpty.filter(Boolean).length)
    expect(isEmpty.filter(Boolean).length).toBeGreaterThan(0)
    expect(band(pixels, 3)).toEqual(isEmpty.map((empty) => (empty ? 0 : 255)))
  })

  it('shrink to the mean of what they cover', async () => {
    const pixels = await decode('plain.tif', 100)
    expect([pixels.widthPx, pixels.heightPx, pixels.fullWidthPx]).toEqual([100, 100, 400])
    const smaller = gdalRaw(files.path('plain.tif'), files.path('quarter.raw'), [
      '-r',
      'average',
      '-outsize',
      '100',
      '100',
    ])
    expect(worst(colours(pixels), smaller)).toBeLessThanOrEqual(1)
  })

  it('come from an overview where one suffices', async () => {
    translate(['-co', 'TILED=YES'], files.path('plain.tif'), 'over.tif')
    gdal('gdaladdo', ['-q', '-r', 'nearest', files.path('over.tif'), '2', '4'])
    const overview = gdalRaw(files.path('over.tif'), files.path('over.raw'), ['-ovr', '1'])
    expect(worst(colours(await decode('over.tif', 100)), overview)).toBe(0)
    expect(worst(colours(await decode('over.tif')), raw)).toBe(0)
    const averaged = colours(await decode('plain.tif', 100))
    expect(worst(averaged, overview)).toBeGreaterThan(10)
  })

  it('of JPEG in a TIFF are close to GDAL’s', async () => {
    translate(
      ['-co', 'COMPRESS=JPEG', '-co', 'PHOTOMETRIC=YCBCR', '-co', 'JPEG_QUALITY=90', '-co', 'TILED=YES'],
      files.path('plain.tif'),
      'jpeg.tif',
    )
    const theirs = gdalRaw(files.path('jpeg.tif'), files.path('jpeg.raw'))
    // Colour is stored at half size; GDAL smooths it on the way up, so that edges differ by some levels.
    expect(meanOff(colours(await decode('jpeg.tif')), theirs)).toBeLessThan(3)
    translate(
      ['-co', 'COMPRESS=JPEG', '-co', 'PHOTOMETRIC=RGB', '-co', 'JPEG_QUALITY=90'],
      files.path('plain.tif'),
      'jpegRgb.tif',
    )
    const rgb = gdalRaw(files.path('jpegRgb.tif'), files.path('jpegRgb.raw'))
    expect(worst(colours(await decode('jpegRgb.tif')), rgb)).toBeLessThanOrEqual(3)
  })

  it('keep an opacity band and an internal mask', async () => {
    const theirs = gdalRaw(files.path('alpha.tif'), files.path('alpha.raw'))
    const [opacity, n] = [theirs.subarray((theirs.length / 4) * 3), theirs.length / 4]
    expect(opacity.some((value) => value === 0) && opacity.some((value) => value === 255)).toBe(true)
    const pixels = await decode('alpha.tif', 1000)
    expect(worst(band(pixels, 3), opacity)).toBe(0)
    const seen = (k: number, i: number): number => (opacity[i] === 0 ? 0 : theirs[k * n + i]!)
    for (const k of [0, 1, 2])
      expect(
        worst(
          band(pixels, k),
          Array.from({ length: n }, (_, i) => seen(k, i)),
        ),
      ).toBeLessThanOrEqual(1)

    const asMask = ['-b', '1', '-b', '2', '-b', '3', '-mask', '4', '--config', 'GDAL_TIFF_INTERNAL_MASK', 'YES']
    translate([...asMask, '-co', 'COMPRESS=DEFLATE'], files.path('alpha.tif'), 'mask.tif')
    expect(worst(band(await decode('mask.tif', 1000), 3), opacity)).toBe(0)
  })

  it('of one band are grey, of a colour table coloured, of four bands the first three', async () => {
    const n = 400 * 400
    translate(['-b', '2'], files.path('plain.tif'), 'grey.tif')
    expect(
      worst(colours(await decode('grey.tif')), [
        ...raw.subarray(n, 2 * n),
        ...raw.subarray(n, 2 * n),
        ...raw.subarray(n, 2 * n),
      ]),
    ).toBe(0)
    translate(['-b', '2', '-co', 'PHOTOMETRIC=MINISWHITE'], files.path('plain.tif'), 'white.tif')
    expect(
      worst(
        band(await decode('white.tif'), 0),
        raw.subarray(n, 2 * n).map((v) => 255 - v),
      ),
    ).toBe(0)

    gdal('rgb2pct.py', ['-n', '64', files.path('plain.tif'), files.path('table.tif')])
    const table = gdalRaw(files.path('table.tif'), files.path('table.raw'), ['-expand', 'rgb'])
    expect(worst(colours(await decode('table.tif')), table)).toBe(0)

    translate(
      ['-b', '1', '-b', '2', '-b', '3', '-b', '1', '-colorinterp_4', 'undefined', '-co', 'ALPHA=NO'],
      files.path('plain.tif'),
      'four.tif',
    )
    const four = await decode('four.tif')
    expect(worst(colours(four), raw)).toBe(0)
    expect(band(four, 3).every((opacity) => opacity === 255)).toBe(true)
    expect(four.notes).toEqual(['1 more band is in the file and not shown.'])
  })

  it.each(['UInt16', 'Int16', 'Float32'])(
    'of type %s are stretched from the 2nd to the 98th percentile',
    async (type) => {
      const args = ['-srcwin', '100', '100', '200', '180', '-ot', type, '-scale', '0', '255', '700', '9000']
      translate(args, files.path('plain.tif'), `${type}.tif`)
      const bytes = gdalRaw(files.path(`${type}.tif`), files.path(`${type}.raw`), ['-ot', 'Float64'])
      const values = new Float64Array(bytes.buffer)
      const sorted = values.toSorted()
      const quantile = (share: number): number => {
        const at = share * (sorted.length - 1)
        const below = sorted[Math.floor(at)]!
        return below + (at % 1) * (sorted[Math.ceil(at)]! - below)
      }
      const [black, white] = [quantile(0.02), quantile(0.98)]
      expect(white).toBeGreaterThan(black + 1000)
      const pixels = await decode(`${type}.tif`)
      const levels = Array.from(values, (v) => Math.min(255, Math.max(0, (255 * (v - black)) / (white - black))))
      expect(worst(colours(pixels), levels)).toBeLessThanOrEqual(0.51)
      expect(pixels.notes.join()).toMatch(/stretched/)
    },
  )

  it('of floats are see-through where no number is', async () => {
    translate(['-b', '1', '-ot', 'Float32', '-a_nodata', '255'], files.path('plain.tif'), 'float.tif')
    gdal('gdalwarp', ['-q', '-dstnodata', 'nan', files.path('float.tif'), files.path('nan.tif')])
    const n = 400 * 400
    const opaque = Array.from(raw.subarray(0, n), (v) => (v === 255 ? 0 : 255))
    expect(opaque.includes(0)).toBe(true)
    for (const name of ['float.tif', 'nan.tif']) expect(band(await decode(name), 3)).toEqual(opaque)
  })

  it('of bits are black and white', async () => {
    translate(
      ['-b', '1', '-ot', 'Byte', '-scale', '0', '255', '0', '1', '-co', 'NBITS=1'],
      files.path('plain.tif'),
      'bits.tif',
    )
    const bits = gdalRaw(files.path('bits.tif'), files.path('bits.raw'))
    expect(
      worst(
        band(await decode('bits.tif'), 0),
        bits.map((bit) => 255 * bit),
      ),
    ).toBe(0)
  })
})
