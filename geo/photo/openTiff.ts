import type { GeoTIFFImage } from 'geotiff'
import { type ByteSource, pagedSource, sourceOfBytes } from './byteSource.ts'
import { type PhotoFault, photoFault } from './placement.ts'
import { inSmallStrips } from './smallStrips.ts'

/** A TIFF's pictures: the full one, its smaller copies (overviews), and its masks of valid pixels, largest first. */
export interface TiffPictures {
  readonly full: GeoTIFFImage
  readonly overviews: readonly GeoTIFFImage[]
  readonly masks: readonly GeoTIFFImage[]
}

/** A TIFF in memory, or one that is read by parts. */
export type TiffFile = Uint8Array<ArrayBuffer> | ByteSource

const smallerCopy = 1
const mask = 4
const mostPictures = 64

/** Why a file that geotiff threw at cannot be read, for the person. */
export const tiffFault = (cause: unknown): PhotoFault => {
  const why = cause instanceof Error ? cause.message : String(cause)
  return photoFault('file', `The file could not be read as a TIFF picture (${why}). It may be cut short or damaged.`)
}

/** What geotiff reads from. */
const geotiffSource = (source: ByteSource) => ({
  fileSize: source.bytes,
  fetch: (slices: readonly { offset: number; length: number }[], signal?: AbortSignal): Promise<ArrayBufferLike[]> =>
    Promise.all(
      slices.map(async ({ offset, length }) => {
        signal?.throwIfAborted()
        return (await source.read(offset, length)).buffer
      }),
    ),
  fetchSlice: async ({ offset, length }: { offset: number; length: number }) => ({
    offset,
    length,
    data: (await source.read(offset, length)).buffer,
  }),
  close: async () => undefined,
})

/**
 * Opens a TIFF or BigTIFF, cloud-optimised or not. Reads only its directories; the parser is loaded when first needed.
 * Of a file that is read by parts, never more than its directories and the blocks asked for are in memory.
 */
export const openTiff = async (file: TiffFile): Promise<TiffPictures | PhotoFault> => {
  try {
    const { GeoTIFF } = await import('geotiff')
    const source = file instanceof Uint8Array ? sourceOfBytes(file) : pagedSource(file)
    const tiff = await GeoTIFF.fromSource(geotiffSource(source))
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
    for (const image of [full, ...overviews, ...masks]) inSmallStrips(image, source)
    const byWidth = (a: GeoTIFFImage, b: GeoTIFFImage): number => b.getWidth() - a.getWidth()
    return { full, overviews: overviews.sort(byWidth), masks: masks.sort(byWidth) }
  } catch (cause) {
    return tiffFault(cause)
  }
}
