import type { Shelf, ShelfWriter } from '../../../geo/keep/shelf.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import { openTiff } from '../../../geo/photo/openTiff.ts'
import { tiffLevels } from '../../../geo/photo/tiffLevels.ts'
import { farmFolder } from '../farm/entry.ts'
import { photoFile } from '../farm/photoFiles.ts'
import { isTiff, sortEndings } from '../photo/pictureFiles.ts'
import { Refusal } from '../refusal.ts'
import { keptBlob } from '../shelf/keptBlob.ts'
import { sound } from './openPhotos.ts'
import { ranOut, refuseWithoutRoom } from './photoRoom.ts'
import { placeTiff } from './placeTiff.ts'
import type { Done, KeptPhoto, TilesAsk } from './tilesDoor.ts'

const PIECE_BYTES = 4 * 1024 * 1024

/**
 * Copies a GeoTIFF, with its world file and .prj where it has them, to the farm's photos piece by piece: never more than
 * 4 MB of it is in memory. Looked through first, so that nothing is copied that could not be shown. Where it fails, is
 * stopped, or finds no room, nothing of it stays.
 */
export async function keepPhoto(
  shelf: Shelf,
  book: GridBook,
  ask: TilesAsk<'keep'>,
  progress: (done: Done) => void,
  signal: AbortSignal,
): Promise<KeptPhoto> {
  const { picture, worldFile, prj } = sortEndings(ask.files.map((file) => ({ name: file.name, file })))
  if (!isTiff(picture.ending)) throw new Refusal('photo', 'Only a TIFF is kept piece by piece.', { field: 'file' })
  const source = keptBlob(picture.file)
  if (ask.isPlaced) sound(await tiffLevels(sound(await openTiff(source)), ask.id))
  else {
    const [world, grid] = [await worldFile?.file.text(), await prj?.file.text()]
    sound(await placeTiff({ picture: source, worldFile: world ?? null, prj: grid ?? null }, ask.crs, book))
  }
  const all = [picture, ...(worldFile ? [worldFile] : []), ...(prj ? [prj] : [])]
  const of = all.reduce((sum, { file }) => sum + file.size, 0)
  await refuseWithoutRoom(shelf, of)

  const names: string[] = []
  let done = 0
  try {
    for (const { ending, file } of all) {
      const name = photoFile(farmFolder(ask.farm), `${ask.id}.${ending}`)
      names.push(name)
      const writer = await shelf.begin(name)
      const took = (bytes: number) => {
        done += bytes
        progress({ done, of })
      }
      await copy(file, writer, took, signal)
    }
  } catch (error) {
    for (const name of names) await shelf.remove(name).catch(() => undefined)
    const isFull = error instanceof DOMException && error.name === 'QuotaExceededError'
    throw isFull ? ranOut(done, of) : error
  }
  return { id: ask.id, name: picture.name, ending: picture.ending }
}

async function copy(
  file: File,
  writer: ShelfWriter,
  took: (bytes: number) => void,
  signal: AbortSignal,
): Promise<void> {
  try {
    for (let at = 0; at < file.size; at += PIECE_BYTES) {
      signal.throwIfAborted()
      const piece = new Uint8Array(await file.slice(at, at + PIECE_BYTES).arrayBuffer())
      await writer.append(piece)
      took(piece.length)
    }
    signal.throwIfAborted()
    await writer.finish()
  } catch (error) {
    await writer.abandon().catch(() => undefined)
    throw error
  }
}
