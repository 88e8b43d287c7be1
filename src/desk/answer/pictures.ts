import { isPlainName } from '../../../geo/exchange/archive.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import { farmFolder } from '../farm/entry.ts'
import { readPhotoFile, writePhotoFile } from '../farm/photoFiles.ts'
import { mimeOf } from '../photo/pictureFiles.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

const isJpeg = (bytes: Uint8Array) => bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff

/** Keeps a picture beside the farm. A record that names it is written in its own step; one never named costs only its room. */
export const keepNotePicture: Answers['keepNotePicture'] = async ({ bytes }, asked) => {
  const { entry } = farmOf(asked)
  const { keeper } = asked
  if (!isJpeg(bytes)) throw new Refusal('photo', 'This is not a JPEG picture.', { field: 'photo' })
  const file = `${uuid7(keeper.nowMs(), keeper.random(10))}.jpg`
  await writePhotoFile(keeper.shelf, farmFolder(entry.id), file, bytes)
  return { file }
}

export const seeNotePicture: Answers['seeNotePicture'] = async ({ file }, asked) => {
  const { entry } = farmOf(asked)
  const bytes = isPlainName(file) ? await readPhotoFile(asked.keeper.shelf, farmFolder(entry.id), file) : null
  if (!bytes) throw new Refusal('not found', `The picture ${file} is not among this farm’s files.`, { field: 'photo' })
  return { mime: mimeOf(file.split('.').at(-1)!.toLowerCase()), bytes }
}
