import { lstat, mkdir, readdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join, resolve, sep } from 'node:path'
import {
  type ArchiveFiles,
  FARM_FILE,
  type Fault,
  FILES,
  FORMAT,
  isPlainName,
  PHOTO_FOLDER,
} from '../../geo/exchange/archive.ts'

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
async function archivePaths(root: string): Promise<string[]> {
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

/**
 * Writes an archive as a folder: a new one, an empty one, or one that holds an archive already, which is replaced (other
 * files in it stay). Says why it does not write, or null. All files are written beside it first, then moved in.
 */
export async function writeFolder(folder: string, files: ArchiveFiles): Promise<string | null> {
  const target = resolve(folder)
  const there = await stat(target).catch(() => null)
  if (there && !there.isDirectory()) return `${folder} is a file`
  const old = there ? await readdir(target) : []
  if (old.length > 0 && !(await holdsArchive(target))) return `${folder} is not empty and holds no ${FORMAT} archive`
  const fresh = join(dirname(target), `.${basename(target)}.part-${process.pid}`)
  await rm(fresh, { recursive: true, force: true })
  try {
    await writeAll(fresh, files)
    if (old.length === 0) {
      if (there) await rm(target, { recursive: true })
      await rename(fresh, target)
    } else await moveInto(fresh, target, files)
  } finally {
    await rm(fresh, { recursive: true, force: true })
  }
  return null
}

async function holdsArchive(folder: string): Promise<boolean> {
  const text = await readFile(join(folder, FARM_FILE), 'utf8').catch(() => '')
  try {
    return (JSON.parse(text) as { format?: unknown } | null)?.format === FORMAT
  } catch {
    return false
  }
}

async function writeAll(folder: string, files: ArchiveFiles): Promise<void> {
  for (const [path, bytes] of files) {
    const at = join(folder, path)
    if (!at.startsWith(folder + sep)) throw new Error(`${JSON.stringify(path)} leads out of the folder`)
    await mkdir(dirname(at), { recursive: true })
    await writeFile(at, bytes)
  }
}

/** Moves the new files over the old, then takes away files of the format that the archive has no more. */
async function moveInto(fresh: string, target: string, files: ArchiveFiles): Promise<void> {
  for (const path of files.keys()) {
    await mkdir(dirname(join(target, path)), { recursive: true })
    await rename(join(fresh, path), join(target, path))
  }
  for (const path of await archivePaths(target)) if (!files.has(path)) await rm(join(target, path))
}
