import { lstat, readdir, readFile, realpath, stat } from 'node:fs/promises'
import { join, sep } from 'node:path'
import { type ArchiveFiles, type Fault, FILES, isPlainName, PHOTO_FOLDER } from '../../geo/exchange/archive.ts'

const MOST_BYTES = 1024 ** 3
const PHOTOS = PHOTO_FOLDER.slice(0, -1)

/**
 * The files of an archive that is a folder: those of the format by whatever case they are written in, and the photos
 * folder. Nothing else in the folder is opened, and links out of it are not followed but told.
 */
export async function readFolder(folder: string): Promise<{ files: ArchiveFiles; faults: Fault[] }> {
  const files = new Map<string, Uint8Array>()
  const faults: Fault[] = []
  const wrong = (file: string, reason: string) => faults.push({ file, record: '', field: '', reason })
  const root = await realpath(folder)
  let total = 0
  for (const path of await archivePaths(root)) {
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
  return { files, faults }
}

/** Paths of the files, and links, that may be the archive's. */
export async function archivePaths(root: string): Promise<string[]> {
  const ofFormat = (name: string) => FILES.includes(name.toLowerCase())
  const top = (await namesIn(root)).filter(ofFormat)
  const photos = (await lstat(join(root, PHOTOS)).catch(() => null))?.isDirectory()
    ? await namesIn(join(root, PHOTOS))
    : []
  return [...top, ...photos.filter(isPlainName).map((name) => PHOTO_FOLDER + name)]
}

async function namesIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true })
  return entries
    .filter((entry) => entry.isFile() || entry.isSymbolicLink())
    .map((entry) => entry.name)
    .sort()
}
