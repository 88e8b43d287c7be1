import type { GeoTIFFImage } from 'geotiff'
import type { Bands } from './bands.ts'
import { type PhotoFault, photoFault } from './placement.ts'

/** One finished row of the smaller picture: sums of colour × opacity, sums of opacity, and how many pixels went in. */
export interface ShrunkRow {
  readonly row: number
  readonly sums: Float64Array
  readonly opacity: Float64Array
  readonly counts: Float64Array
}

const fewestRows = 64
/** Samples held at once, and pixels along a side: beyond these a file is damaged, or cannot be read in a browser's memory. */
const mostSamples = 2 ** 27
const mostSidePx = 2 ** 20

/**
 * Reads a TIFF picture in bands of whole blocks and averages its pixels onto `widthPx` × `heightPx` (no larger than the
 * picture), handing over each row of the result from the top. A pixel goes to the place that holds its centre, so
 * nothing shifts: geotiff's own resampling moves pictures by up to half a pixel of the result, and wants the whole
 * picture in memory.
 */
export const shrink = async (
  image: GeoTIFFImage,
  bands: Pick<Bands, 'samples' | 'channels' | 'colourAt'>,
  widthPx: number,
  heightPx: number,
  take: (row: ShrunkRow) => void,
): Promise<PhotoFault | undefined> => {
  const width = image.getWidth()
  const height = image.getHeight()
  if (widthPx > width || heightPx > height)
    throw new Error(`cannot shrink ${width} × ${height} to ${widthPx} × ${heightPx}`)
  const { samples, channels } = bands
  const perPixel = samples.length
  const block = image.getTileHeight()
  const step = block * Math.ceil(fewestRows / block)
  const blockSamples = image.getTileWidth() * block * image.getSamplesPerPixel()
  const atOnce = Math.max(blockSamples, width * Math.min(step, height) * image.getSamplesPerPixel())
  if (!(atOnce <= mostSamples && Math.max(width, height) <= mostSidePx))
    return photoFault(
      'pixels',
      'The picture is too large to read in one piece and is not stored in tiles. Save it in tiles, for example with "gdal_translate -co TILED=YES -co COMPRESS=DEFLATE".',
    )

  const place = Int32Array.from({ length: width }, (_, col) => Math.floor(((col + 0.5) * widthPx) / width))
  const sums = new Float64Array(widthPx * channels)
  const opacity = new Float64Array(widthPx)
  const counts = new Float64Array(widthPx)
  let current = 0
  const finish = (): void => {
    take({ row: current, sums, opacity, counts })
    sums.fill(0)
    opacity.fill(0)
    counts.fill(0)
  }

  for (let top = 0; top < height; top += step) {
    const bottom = Math.min(height, top + step)
    const data = await image.readRasters({ window: [0, top, width, bottom], samples: [...samples], interleave: true })
    for (let y = top; y < bottom; y += 1) {
      const row = Math.floor(((y + 0.5) * heightPx) / height)
      if (row !== current) {
        finish()
        current = row
      }
      let at = (y - top) * width * perPixel
      for (let x = 0; x < width; x += 1, at += perPixel) {
        const to = place[x]!
        opacity[to]! += bands.colourAt(data, at, sums, to * channels)
        counts[to]! += 1
      }
    }
  }
  finish()
  return undefined
}
