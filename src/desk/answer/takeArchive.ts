import { readContent } from '../../../geo/exchange/readContent.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { writeZip } from '../../../geo/exchange/writeZip.ts'
import { farmFolder } from '../farm/entry.ts'
import { listPhotoFiles, readPhotoFile } from '../farm/photoFiles.ts'
import { type Answers, farmOf } from './answers.ts'

/** The whole farm as an archive, photos included. */
export const takeArchive: Answers['takeArchive'] = async (_, asked) => {
  const { entry, db } = farmOf(asked)
  const { shelf } = asked.keeper
  const photos = new Map<string, Uint8Array>()
  for (const name of await listPhotoFiles(shelf, farmFolder(entry.id))) {
    const bytes = await readPhotoFile(shelf, farmFolder(entry.id), name)
    if (bytes) photos.set(name, bytes)
    asked.signal.throwIfAborted()
  }
  const content = await db.transaction((tx) => readContent(tx, photos))
  asked.signal.throwIfAborted()
  const name = content.farm.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'farm'
  return { name: `${name}.zip`, bytes: writeZip(writeArchive(content)) }
}
