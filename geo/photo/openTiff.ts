import type { GeoTIFFImage } from 'geotiff'
import { type PhotoFault, photoFault } from './placement.ts'

/** A TIFF's pictures: the full one, its smaller copies (overviews), and its masks of valid pixels, largest first. */
export interface TiffPictures {
  readonly full: GeoTIFFImage
  readonly overviews: readonly GeoTIFFImage[]
  readonly masks: readonly GeoTIFFImage[]
}

const smallerCopy = 1
const mask = 4
const mostPictures = 64

/** The file's bytes alone, without what else shares their buffer. */
const bufferOf = (bytes: Uint8Array<ArrayBuffer>): ArrayBuffer =>
  bytes.byteLength === bytes.buffer.byteLength
    ? bytes.buffer
    : bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength)

/** Why a file that geotiff threw at cannot be read, for the person. */
export const tiffFault = (cause: unknown): PhotoFault => {
  const why = cause instanceof Error ? cause.message : String(cause)
  return photoFault('file', `The file could not be read as a TIFF picture (${why}). It may be cut short or damaged.`)
}

/** Opens a TIFF or BigTIFF. Reads only its directories; the parser is loaded when first needed. */
export const openTiff = async (bytes: Uint8Array<ArrayBuffer>): Promise<TiffPictures | PhotoFault> => {
  try {
    const { fromArrayBuffer } = await import('geotiff')
    const tiff = await fromArrayBuffer(bufferOf(bytes))
    const full = await tiff.getImage(0)
    if (full.getWidth() < 1 || full.getHeight() < 1) return photoFault('file', 'The TIFF holds no pixels.')
    const overviews: GeoTIFFImage[] = []
    const masks: GeoTIFFImage[] = []
    let last = full
    for (let index = 1; last.fileDirectory.nextIFDByteOffset !== 0 && index < mostPictures; index += 1) {
      last = await tiff.getImage(index)
      const kind = Number(last.fileDirectory.getValue('NewSubfileType') ?? 0)
      if ((kind & mask) !== 0) masks.push(last)
      else if ((kind & smallerCopy) !== 0) overviews.push(last)
    }
    const byWidth = (a: GeoTIFFImage, b: GeoTIFFImage): number => b.getWidth() - a.getWidth()
    return { full, overviews: overviews.sort(byWidth), masks: masks.sort(byWidth) }
  } catch (cause) {
    return tiffFault(cause)
  }
}
