import type { Shelf } from '../../../geo/keep/shelf.ts'
import { dressings } from '../../../geo/model/dressings.ts'
import { observations } from '../../../geo/model/observations.ts'
import { type Photo, photos } from '../../../geo/model/photos.ts'
import { quoted } from '../../../geo/store/database.ts'
import { readRecords } from '../../../geo/store/row.ts'
import { farmFolder } from './entry.ts'
import type { FarmInHand } from './keeper.ts'
import { listPhotoFiles, stemOf } from './photoFiles.ts'

/** Ids that are made here (UUID version 7), after which a photo's files are named. */
const MADE_HERE = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}$/

/**
 * Files of photos that were removed, pictures of notes that were struck out, and files whose adding broke off. They stay
 * so that a removal can be undone, until the person frees them. Files that an archive brought without naming them are
 * not among these.
 */
export async function removedFiles(shelf: Shelf, { db, entry }: FarmInHand): Promise<string[]> {
  const records = (await db.transaction((tx) => readRecords(tx, photos))) as unknown as Photo[]
  const stems = new Set(records.map(({ file }) => stemOf(file)))
  for (const kind of [observations, dressings])
    for (const { photo } of await db.rows<{ photo: string }>(
      `select photo from ${quoted(kind.name)} where photo is not null`,
    ))
      stems.add(stemOf(photo))
  const names = await listPhotoFiles(shelf, farmFolder(entry.id))
  return names.filter((name) => MADE_HERE.test(stemOf(name)) && !stems.has(stemOf(name)))
}
