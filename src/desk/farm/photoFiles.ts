import type { Shelf } from '../../../geo/keep/shelf.ts'

const folderOf = (folder: string) => `${folder}/photos/`

/** A file of a farm's photos, or null. */
export function readPhotoFile(shelf: Shelf, folder: string, name: string): Promise<Uint8Array | null> {
  return shelf.read(folderOf(folder) + name)
}

export function writePhotoFile(shelf: Shelf, folder: string, name: string, bytes: Uint8Array): Promise<void> {
  return shelf.write(folderOf(folder) + name, bytes)
}

/** Names of all files of a farm's photos. */
export async function listPhotoFiles(shelf: Shelf, folder: string): Promise<string[]> {
  return (await shelf.list(folderOf(folder))).map((name) => name.slice(folderOf(folder).length))
}
