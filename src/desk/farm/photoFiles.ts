import type { KeptFile, Shelf } from '../../../geo/keep/shelf.ts'

const folderOf = (folder: string) => `${folder}/photos/`

/** Where a file of a farm's photos lies on the shelf. */
export const photoFile = (folder: string, name: string): string => folderOf(folder) + name

/** A photo's own smaller copies, which can be made again at any time and so are no part of an archive. */
export const isTiles = (name: string): boolean => name.endsWith('.tiles')
export const tilesOf = (file: string): string => `${stemOf(file)}.tiles`

/** What a photo's files have in common. */
export const stemOf = (file: string): string => file.replace(/\.[^.]*$/, '')

/** A file of a farm's photos, or null. */
export function readPhotoFile(shelf: Shelf, folder: string, name: string): Promise<Uint8Array | null> {
  return shelf.read(photoFile(folder, name))
}

/** The same, to be read by parts. */
export function openPhotoFile(shelf: Shelf, folder: string, name: string): Promise<KeptFile | null> {
  return shelf.open(photoFile(folder, name))
}

export function writePhotoFile(shelf: Shelf, folder: string, name: string, bytes: Uint8Array): Promise<void> {
  return shelf.write(photoFile(folder, name), bytes)
}

/** Names of all files of a farm's photos, but their own smaller copies. */
export async function listPhotoFiles(shelf: Shelf, folder: string): Promise<string[]> {
  const names = await shelf.list(folderOf(folder))
  return names.map((name) => name.slice(folderOf(folder).length)).filter((name) => !isTiles(name))
}
