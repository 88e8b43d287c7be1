import type { GeoTIFFImage } from 'geotiff'
import { type Bands, bandsOf } from './bands.ts'
import { findStretch } from './findStretch.ts'
import type { Level } from './level.ts'
import { type TiffPictures, tiffFault } from './openTiff.ts'
import { isPhotoFault, type PhotoFault, photoFault, type Raster } from './placement.ts'
import { levelOf, type Stretch } from './stretch.ts'

/** A TIFF's full picture and its overviews as levels, largest first, and what is to be told of its colours. */
export interface TiffLevels {
  readonly levels: readonly Level[]
  /** True where the full picture is stored in tiles, so that any part of it is read without its neighbours. */
  readonly isTiled: boolean
  readonly notes: readonly string[]
}

/** Strips are read together up to about so many pixels. */
const stripBlockPx = 512 * 1024
/** Pixels of one block: beyond, a single block does not fit into the memory that a photo may take. */
const mostBlockPx = 2 ** 24

/** Rows that are read at once: whole tiles or strips. */
const rowsAtOnce = (image: GeoTIFFImage): number => {
  const told = image.getTileHeight()
  if (image.isTiled) return told
  const wanted = Math.max(1, Math.floor(stripBlockPx / image.getWidth()))
  return Math.min(image.getHeight(), told * Math.max(1, Math.floor(wanted / told)))
}

const tooLong = photoFault(
  'pixels',
  'The picture is packed in pieces so large that one of them does not fit into a browser’s memory. Save it in tiles, for example with "gdal_translate -of COG -co COMPRESS=JPEG photo.tif tiled.tif".',
)

/** Paints samples as they come from the file. */
const paint = (
  data: ArrayLike<number>,
  perPixel: number,
  perRow: number,
  bands: Bands,
  stretch: Stretch | null,
  { rgba, widthPx, heightPx }: Raster,
): void => {
  const { channels } = bands
  const sums = new Float64Array(3)
  for (let y = 0, out = 0; y < heightPx; y += 1)
    for (let x = 0, at = y * perRow; x < widthPx; x += 1, at += perPixel, out += 4) {
      sums.fill(0)
      const seen = bands.colourAt(data, at, sums, 0)
      if (seen === 0) continue
      for (let c = 0; c < 3; c += 1) {
        const value = sums[channels === 3 ? c : 0]! / seen
        rgba[out + c] = stretch === null ? value : levelOf(stretch, value)
      }
      rgba[out + 3] = 255 * seen
    }
}

type Window = readonly [left: number, top: number, right: number, bottom: number]

/** Samples pixel by pixel, with how many stand in a pixel and in a row. */
interface Plain {
  readonly data: Uint8Array
  readonly perPixel: number
  readonly perRow: number
}

/**
 * Reads the samples of whole tiles or strips as they come out of the decoder, where they are bytes pixel by pixel: a
 * tenth of the time that geotiff takes to copy them one by one. Null for any other form. geotiff hands no decoder out,
 * so a single pixel is asked of it and the whole block caught on the way.
 */
const plainReader = (image: GeoTIFFImage, bands: Bands): ((window: Window) => Promise<Plain | null>) => {
  const perPixel = image.getSamplesPerPixel()
  const isBytes = (sample: number): boolean =>
    image.getSampleFormat(sample) === 1 && image.getBitsPerSample(sample) === 8
  const isPlain =
    image.planarConfiguration === 1 &&
    Array.from({ length: perPixel }, (_, i) => i).every(isBytes) &&
    bands.samples.every((sample, i) => sample === i)
  if (!isPlain) return async () => null

  const width = image.getTileWidth()
  const height = image.getTileHeight()
  const perRow = width * perPixel
  const caught = new Map<string, Uint8Array>()
  const decode = image.getTileOrStrip.bind(image)
  image.getTileOrStrip = async (x, y, sample, decoder, signal) => {
    const block = await decode(x, y, sample, decoder, signal)
    caught.set(`${x}/${y}`, new Uint8Array(block.data as ArrayBuffer))
    return block
  }
  const blockAt = async (x: number, y: number): Promise<Uint8Array | null> => {
    await image.readRasters({ window: [x * width, y * height, x * width + 1, y * height + 1], samples: [0] })
    const block = caught.get(`${x}/${y}`)
    caught.delete(`${x}/${y}`)
    return block ?? null
  }
  return async ([left, top, , bottom]) => {
    const data = new Uint8Array((bottom - top) * perRow)
    for (let down = Math.floor(top / height); down * height < bottom; down += 1) {
      const block = await blockAt(Math.floor(left / width), down)
      if (block === null) return null
      const to = (down * height - top) * perRow
      data.set(block.subarray(0, data.length - to), to)
    }
    return { data, perPixel, perRow }
  }
}

const blockOf = async (
  image: GeoTIFFImage,
  bands: Bands,
  readPlain: (window: Window) => Promise<Plain | null>,
  stretch: Stretch | null,
  window: Window,
): Promise<Raster> => {
  const [left, top, right, bottom] = window
  const raster: Raster = {
    rgba: new Uint8ClampedArray(4 * (right - left) * (bottom - top)),
    widthPx: right - left,
    heightPx: bottom - top,
  }
  const plain = await readPlain(window)
  if (plain !== null) paint(plain.data, plain.perPixel, plain.perRow, bands, stretch, raster)
  else {
    const perPixel = bands.samples.length
    const data = await image.readRasters({ window: [...window], samples: [...bands.samples], interleave: true })
    paint(data, perPixel, raster.widthPx * perPixel, bands, stretch, raster)
  }
  return raster
}

/** Takes away what a mask of valid pixels leaves out. */
const cutOut = async (mask: GeoTIFFImage, window: Window, { rgba }: Raster) => {
  const valid = await mask.readRasters({ window: [...window], samples: [0], interleave: true })
  for (let i = 0; i < valid.length; i += 1) if (!(valid[i]! > 0)) rgba[4 * i + 3] = 0
}

/**
 * The levels of an opened TIFF. `name` tells its blocks from another file's. Bytes are taken as they are; anything else
 * (16 bits, floats) is stretched the same at every level. Offsets of blocks are read at once, so that a window costs no
 * more than its own blocks.
 */
export const tiffLevels = async (tiff: TiffPictures, name: string): Promise<TiffLevels | PhotoFault> => {
  try {
    const bands = await bandsOf(tiff.full)
    if (isPhotoFault(bands)) return bands
    const stretch = bands.isLevel ? null : await findStretch(tiff, bands)
    if (stretch !== null && isPhotoFault(stretch)) return stretch
    const levels: Level[] = []
    for (const [index, image] of [tiff.full, ...tiff.overviews].entries()) {
      const widthPx = image.getWidth()
      const heightPx = image.getHeight()
      const blockWidthPx = image.getTileWidth()
      const blockHeightPx = rowsAtOnce(image)
      if (!(blockWidthPx >= 1 && blockHeightPx >= 1 && blockWidthPx * blockHeightPx <= mostBlockPx)) return tooLong
      const mask = tiff.masks.find((one) => one.getWidth() === widthPx && one.getHeight() === heightPx)
      const own = index === 0 ? bands : await bandsOf(image)
      if (isPhotoFault(own)) return own
      const readPlain = plainReader(image, own)
      levels.push({
        name: `${name}:${index}`,
        widthPx,
        heightPx,
        blockWidthPx,
        blockHeightPx,
        async read(across, down) {
          const left = across * blockWidthPx
          const top = down * blockHeightPx
          const window = [
            left,
            top,
            Math.min(widthPx, left + blockWidthPx),
            Math.min(heightPx, top + blockHeightPx),
          ] as const
          const raster = await blockOf(image, own, readPlain, stretch, window)
          if (mask !== undefined) await cutOut(mask, window, raster)
          return raster
        },
      })
    }
    const stretched = stretch === null ? [] : ['Brightness was stretched for the screen (2nd to 98th percentile).']
    return { levels, isTiled: tiff.full.isTiled, notes: [...bands.notes, ...stretched] }
  } catch (cause) {
    return tiffFault(cause)
  }
}
