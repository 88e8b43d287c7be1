import type { GeoTIFFImage } from 'geotiff'
import type { Bands } from './bands.ts'
import type { TiffPictures } from './openTiff.ts'
import type { PhotoFault } from './placement.ts'
import { shrink } from './shrink.ts'
import { fitted, smallestFor } from './smallestFor.ts'
import { type Stretch, stretchOf } from './stretch.ts'

/** Side to which a picture is shrunk to find its stretch. */
const stretchSidePx = 256
/** A picture of more pixels, without a smaller copy, is looked at in places only. */
const mostWholePx = 2 ** 24
/** Blocks looked at then, over the picture along each side, and pixels taken from each. */
const placesASide = 7
const mostFromEach = 4096

const inPlaces = async (image: GeoTIFFImage, bands: Bands): Promise<number[]> => {
  const { samples, channels } = bands
  const width = image.getWidth()
  const height = image.getHeight()
  const values: number[] = []
  const sums = new Float64Array(3)
  for (let j = 0; j < placesASide; j += 1)
    for (let i = 0; i < placesASide; i += 1) {
      const left = Math.floor(((i + 0.5) / placesASide) * width)
      const top = Math.floor(((j + 0.5) / placesASide) * height)
      const window = [left, top, Math.min(width, left + 64), Math.min(height, top + 64)]
      const data = await image.readRasters({ window, samples: [...samples], interleave: true })
      const count = Math.min(mostFromEach, data.length / samples.length)
      for (let k = 0; k < count; k += 1) {
        sums.fill(0)
        const seen = bands.colourAt(data, k * samples.length, sums, 0)
        if (seen > 0) for (let c = 0; c < channels; c += 1) values.push(sums[c]! / seen)
      }
    }
  return values
}

/**
 * The stretch of a picture whose samples are no levels: over all of it, from a copy small enough where there is one; of
 * a large picture without copies from 49 places spread evenly over it.
 */
export const findStretch = async (tiff: TiffPictures, bands: Bands): Promise<Stretch | PhotoFault> => {
  const [width, height] = fitted(tiff.full, stretchSidePx)
  const image = smallestFor([tiff.full, ...tiff.overviews], width, height) ?? tiff.full
  if (image.getWidth() * image.getHeight() > mostWholePx) return stretchOf(await inPlaces(image, bands))
  const values: number[] = []
  const fault = await shrink(image, bands, width, height, ({ sums, opacity }) => {
    for (let x = 0; x < width; x += 1)
      if (opacity[x]! > 0)
        for (let c = 0; c < bands.channels; c += 1) values.push(sums[x * bands.channels + c]! / opacity[x]!)
  })
  return fault ?? stretchOf(values)
}
