import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { ByteSource } from '../../../geo/photo/byteSource.ts'
import { readTaken } from '../../../geo/photo/exif.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import { readPixels } from '../../../geo/photo/pixels.ts'
import { farmFolder } from '../farm/entry.ts'
import { openPhotoFile } from '../farm/photoFiles.ts'
import { sortEndings } from '../photo/pictureFiles.ts'
import { Refusal } from '../refusal.ts'
import { keptBlob } from '../shelf/keptBlob.ts'
import { sound } from './openPhotos.ts'
import type { SeenPhoto, TilesAsk } from './tilesDoor.ts'

/** Cameras and their programs write their tags before the picture, or not far behind its beginning. */
const TAGS_BYTES = 4 * 1024 * 1024

/** A copy of a TIFF to be placed by points, from the smallest of its own copies that suffices, else row by row. */
export async function seePhoto(
  shelf: Shelf,
  { of, maxSidePx }: TilesAsk<'see'>,
  signal: AbortSignal,
): Promise<SeenPhoto> {
  const source = await sourceOf(shelf, of)
  const read = stoppable(source, signal)
  const sides = sound(await openTiff(read)).overviews.map((one) => Math.max(one.getWidth(), one.getHeight()))
  // One of its own copies that is not much smaller is read instead of the whole.
  const own = sides.find((side) => side <= maxSidePx && 2 * side >= maxSidePx)
  const pixels = sound(await readPixels(read, own ?? maxSidePx))
  signal.throwIfAborted()
  const { rgba, widthPx, heightPx, fullWidthPx, fullHeightPx } = pixels
  return {
    widthPx: fullWidthPx,
    heightPx: fullHeightPx,
    image: await createImageBitmap(new ImageData(rgba, widthPx, heightPx)),
    taken: await readTaken(await source.read(0, Math.min(source.bytes, TAGS_BYTES))),
  }
}

async function sourceOf(shelf: Shelf, of: TilesAsk<'see'>['of']): Promise<ByteSource> {
  if (!('farm' in of)) return keptBlob(sortEndings(of.map((file) => ({ name: file.name, file }))).picture.file)
  const kept = await openPhotoFile(shelf, farmFolder(of.farm), of.file)
  if (kept) return kept
  throw new Refusal('photo', `The photo's file ${of.file} is not among this farm's files.`, { field: 'file' })
}

/** Reads nothing more once it is stopped: whoever reads gives the fault back as one of the file, which nobody waits for. */
const stoppable = (source: ByteSource, signal: AbortSignal): ByteSource => ({
  bytes: source.bytes,
  async read(at, length) {
    signal.throwIfAborted()
    return source.read(at, length)
  },
})
