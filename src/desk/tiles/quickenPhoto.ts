import type { Shelf } from '../../../geo/keep/shelf.ts'
import { bandBytes, makeTiles } from '../../../geo/photo/makeTiles.ts'
import { farmFolder } from '../farm/entry.ts'
import { photoFile, tilesOf } from '../farm/photoFiles.ts'
import { Refusal } from '../refusal.ts'
import type { OpenPhoto } from './openPhotos.ts'
import { megabytes, ranOut, refuseWithoutRoom } from './photoRoom.ts'
import { encodeTile } from './tileCodec.ts'
import type { Done, PhotoAt } from './tilesDoor.ts'

/** Memory that making smaller copies may take. */
const MOST_BAND_BYTES = 384 * 1024 * 1024
/** Packed bytes to a pixel, at the most that is usual. */
const BYTES_PER_PIXEL = 0.6

/**
 * Makes the smaller copies that a photo lacks, in one pass over its rows, beside its file. Stopped or failed, nothing of
 * them stays, and the photo is shown as slowly as before.
 */
export async function quickenPhoto(
  shelf: Shelf,
  at: PhotoAt,
  { base, lacks }: OpenPhoto,
  progress: (done: Done) => void,
  signal: AbortSignal,
): Promise<void> {
  if (lacks === null) return
  if (bandBytes(base) > MOST_BAND_BYTES)
    throw new Refusal(
      'photo',
      `Its rows are so long that making smaller copies would take ${megabytes(bandBytes(base))} of memory. Make them with "gdal_translate -of COG -co COMPRESS=JPEG photo.tif tiled.tif" and open that.`,
    )
  const pixels = base.widthPx * base.heightPx * (lacks.from === 0 ? 4 / 3 : 1 / 3)
  await refuseWithoutRoom(shelf, pixels * BYTES_PER_PIXEL)
  const writer = await shelf.begin(photoFile(farmFolder(at.farm), tilesOf(at.file)))
  let written = 0
  try {
    const sink = {
      append: async (bytes: Uint8Array) => {
        await writer.append(bytes)
        written += bytes.length
      },
    }
    await makeTiles(base, lacks.from, sink, encodeTile, async (done, of) => {
      signal.throwIfAborted()
      progress({ done, of })
      // Lets what is asked meanwhile be drawn, and a stop be heard.
      await new Promise((free) => setTimeout(free))
    })
    await writer.finish()
  } catch (error) {
    await writer.abandon().catch(() => undefined)
    const isFull = error instanceof DOMException && error.name === 'QuotaExceededError'
    throw isFull ? ranOut(written, pixels * BYTES_PER_PIXEL) : error
  } finally {
    if ('release' in base) base.release()
  }
}
