import type { PhotoFile } from '../../desk/door.ts'

/** The bytes of the files that the person chose. */
export function readFiles(files: FileList | null): Promise<PhotoFile[]> {
  return Promise.all(
    [...(files ?? [])].map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  )
}
