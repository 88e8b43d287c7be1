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
const paint = (data: ArrayLike<number>, perPixel: number, bands: Bands, stretch: Stretch | null, to: Raster): void => {
  const { channels } = bands
  const sums = new Float64Array(3)
  const { rgba } = to
  const count = to.widthPx * to.heightPx
  for (let i = 0, at = 0, out = 0; i < count; i += 1, at += perPixel, out += 4) {
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

const blockOf = async (
  image: GeoTIFFImage,
  bands: Bands,
  stretch: Stretch | null,
  window: readonly [number, number, number, number],
): Promise<Raster> => {
  const [left, top, right, bottom] = window
  const raster: Raster = {
    rgba: new Uint8ClampedArray(4 * (right - left) * (bottom - top)),
    widthPx: right - left,
    heightPx: bottom - top,
  }
  const data = await image.readRasters({ window: [...window], samples: [...bands.samples], interleave: true })
  paint(data, bands.samples.length, bands, stretch, raster)
  return raster
}

/** Takes away what a mask of valid pixels leaves out. */
const cutOut = async (mask: GeoTIFFImage, window: readonly [number, number, number, number], { rgba }: Raster) => {
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
          const raster = await blockOf(image, own, stretch, window)
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
