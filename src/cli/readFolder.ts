import { readdir, readFile, realpath, stat } from 'node:fs/promises'
import { join, sep } from 'node:path'
import { type Fault, isOfArchive, type OpenedArchive, PHOTO_FOLDER } from '../../geo/exchange/archive.ts'
import { isSystemFile } from '../../geo/exchange/readZip.ts'

const MOST_BYTES = 1024 ** 3

/**
 * Opens an archive that is a folder: the files of the format by whatever case they are written in, and those of the photos
 * folder. Nothing else in the folder is opened, and links out of it are not followed but told.
 */
export async function readFolder(folder: string): Promise<OpenedArchive> {
  const files = new Map<string, Uint8Array>()
  const faults: Fault[] = []
  const wrong = (file: string, reason: string) => faults.push({ file, record: '', field: '', reason })
  const root = await realpath(folder)
  let total = 0
  const { taken, ignored } = await archivePaths(root)
  for (const path of taken) {
    const real = await realpath(join(root, path)).catch(() => null)
    if (!real?.startsWith(root + sep)) {
      wrong(path, 'is a link out of the folder, which is not followed')
      continue
    }
    const { size } = await stat(real)
    total += size
    if (total > MOST_BYTES) {
      wrong(path, `brings the files above ${MOST_BYTES / 1024 ** 3} GiB`)
      break
    }
    files.set(path, await readFile(real))
  }
  return { files, faults, ignored }
}

/**
 * Paths of the files, and links, of a folder: those that are the archive's, and the others but for what systems add. A
 * folder that the format does not know is one path, ending in `/`.
 */
export async function archivePaths(root: string): Promise<{ taken: string[]; ignored: string[] }> {
  const taken: string[] = []
  const ignored: string[] = []
  const look = async (folder: string) => {
    const entries = await readdir(join(root, folder), { withFileTypes: true })
    entries.sort((a, b) => (a.name < b.name ? -1 : 1))
    for (const entry of entries) {
      const path = folder + entry.name
      if (isSystemFile(path)) continue
      if (entry.isDirectory()) {
        if (`${path}/`.startsWith(PHOTO_FOLDER)) await look(`${path}/`)
        else ignored.push(`${path}/`)
      } else if (isOfArchive(path) && (entry.isFile() || entry.isSymbolicLink())) taken.push(path)
      else ignored.push(path)
    }
  }
  await look('')
  return { taken, ignored }
}
