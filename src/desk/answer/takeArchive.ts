import { PHOTO_FOLDER } from '../../../geo/exchange/archive.ts'
import { crc32 } from '../../../geo/exchange/crc32.ts'
import { readContent } from '../../../geo/exchange/readContent.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { type ZipPart, zipParts } from '../../../geo/exchange/zipParts.ts'
import type { KeptFile } from '../../../geo/keep/shelf.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, openPhotoFile } from '../farm/photoFiles.ts'
import { removedFiles } from '../farm/removedFiles.ts'
import { blobOf } from '../shelf/keptBlob.ts'
import { type Answers, farmOf } from './answers.ts'

const PIECE_BYTES = 4 * 1024 * 1024

/**
 * The whole farm as an archive, photos included, but those that were removed. The zip is put together from the photos'
 * own files where the browser has them as files: however large they are, no more than 4 MB of them is in memory, and no
 * second copy is written. They are read once, for their checksums.
 */
export const takeArchive: Answers['takeArchive'] = async (_, asked) => {
  const farm = farmOf(asked)
  const { entry, db } = farm
  const { shelf } = asked.keeper
  const removed = new Set(await removedFiles(shelf, farm))
  const photos: ZipPart<Blob>[] = []
  for (const name of (await listPhotoFiles(shelf, farmFolder(entry.id))).sort()) {
    const file = removed.has(name) ? null : await openPhotoFile(shelf, farmFolder(entry.id), name)
    if (!file) continue
    const crc = await crcOf(file, asked.signal)
    photos.push({ path: PHOTO_FOLDER + name, bytes: file.bytes, crc, part: await blobOf(file, asked.signal) })
  }
  const content = await db.transaction((tx) => readContent(tx, new Map()))
  asked.signal.throwIfAborted()
  const name = content.farm.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'farm'
  const parts = zipParts(writeArchive(content), photos) as BlobPart[]
  return { name: `${name}.zip`, zip: new Blob(parts, { type: 'application/zip' }) }
}

async function crcOf(file: KeptFile, signal: AbortSignal): Promise<number> {
  let crc = 0
  for (let at = 0; at < file.bytes; at += PIECE_BYTES) {
    signal.throwIfAborted()
    crc = crc32(await file.read(at, PIECE_BYTES), crc)
  }
  return crc
}
