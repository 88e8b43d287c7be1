import { type Bands, bandsOf } from './bands.ts'
import { findStretch } from './findStretch.ts'
import { openTiff, type TiffFile, type TiffPictures, tiffFault } from './openTiff.ts'
import { isPhotoFault, type PhotoFault, type Raster } from './placement.ts'
import { shrink } from './shrink.ts'
import { fitted, smallestFor } from './smallestFor.ts'
import { levelOf, type Stretch } from './stretch.ts'

/** A picture's pixels for the screen. They cover the whole picture, whose full size is `fullWidthPx` × `fullHeightPx`. */
export interface PhotoPixels extends Raster {
  readonly fullWidthPx: number
  readonly fullHeightPx: number
  readonly notes: readonly string[]
}

const paint = async (
  tiff: TiffPictures,
  bands: Bands,
  stretch: Stretch | null,
  raster: Raster,
): Promise<PhotoFault | undefined> => {
  const { rgba, widthPx, heightPx } = raster
  const image = smallestFor([tiff.full, ...tiff.overviews], widthPx, heightPx) ?? tiff.full
  return shrink(image, bands, widthPx, heightPx, ({ row, sums, opacity, counts }) => {
    for (let x = 0; x < widthPx; x += 1) {
      const seen = opacity[x]!
      if (seen === 0) continue
      const to = 4 * (row * widthPx + x)
      for (let c = 0; c < 3; c += 1) {
        const value = sums[x * bands.channels + (bands.channels === 3 ? c : 0)]! / seen
        rgba[to + c] = stretch === null ? value : levelOf(stretch, value)
      }
      rgba[to + 3] = (255 * seen) / counts[x]!
    }
  })
}

/** Reads a mask of valid pixels: its sample is 0 where there is no picture. */
const maskBands: Pick<Bands, 'samples' | 'channels' | 'colourAt'> = {
  samples: [0],
  channels: 1,
  colourAt: (data, at) => (data[at]! > 0 ? 1 : 0),
}

const cutOut = async (tiff: TiffPictures, { rgba, widthPx, heightPx }: Raster): Promise<PhotoFault | undefined> => {
  const mask = smallestFor(tiff.masks, widthPx, heightPx)
  if (mask === undefined) return undefined
  return shrink(mask, maskBands, widthPx, heightPx, ({ row, opacity, counts }) => {
    for (let x = 0; x < widthPx; x += 1) rgba[4 * (row * widthPx + x) + 3]! *= opacity[x]! / counts[x]!
  })
}

/**
 * Decodes a TIFF's picture to RGBA with no side longer than `maxSidePx`, from the smallest overview that suffices. Bytes
 * are taken as they are; anything else (16 bits, floats) is stretched from its 2nd to its 98th percentile. No-data,
 * masked and see-through pixels come out see-through. Needs no georeference.
 */
export const readPixels = async (file: TiffFile, maxSidePx: number): Promise<PhotoPixels | PhotoFault> => {
  if (!(maxSidePx >= 1)) throw new Error(`a picture cannot be decoded to ${maxSidePx} px`)
  const tiff = await openTiff(file)
  if (isPhotoFault(tiff)) return tiff
  try {
    const bands = await bandsOf(tiff.full)
    if (isPhotoFault(bands)) return bands
    const stretch = bands.isLevel ? null : await findStretch(tiff, bands)
    if (stretch !== null && isPhotoFault(stretch)) return stretch
    const [widthPx, heightPx] = fitted(tiff.full, maxSidePx)
    const raster = { rgba: new Uint8ClampedArray(4 * widthPx * heightPx), widthPx, heightPx }
    const fault = (await paint(tiff, bands, stretch, raster)) ?? (await cutOut(tiff, raster))
    if (fault !== undefined) return fault
    const stretched = stretch === null ? [] : ['Brightness was stretched for the screen (2nd to 98th percentile).']
    const notes = [...bands.notes, ...stretched]
    return { ...raster, fullWidthPx: tiff.full.getWidth(), fullHeightPx: tiff.full.getHeight(), notes }
  } catch (cause) {
    return tiffFault(cause)
  }
}
