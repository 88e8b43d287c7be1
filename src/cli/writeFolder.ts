import { mkdir, readdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises'
import { dirname, join, resolve, sep } from 'node:path'
import { type ArchiveFiles, FARM_FILE, FORMAT } from '../../geo/exchange/archive.ts'
import { archivePaths } from './readFolder.ts'
import { besides } from './writeWhole.ts'

/**
 * Writes an archive as a folder: a new one, an empty one, or with `replace` one that holds an archive already, whose files
 * go (others in it stay). Says why it does not write, or null. All files are written beside the folder first; where that
 * or the moving in fails, what stood there stands there still.
 */
export async function writeFolder(
  folder: string,
  files: ArchiveFiles,
  { replace }: { readonly replace: boolean },
): Promise<string | null> {
  const refused = await whyNoFolder(folder, replace)
  if (refused) return refused
  const there = await stat(folder).catch(() => null)
  const target = there ? await realpath(folder) : resolve(folder)
  const isEmpty = !there || (await readdir(target)).length === 0
  const fresh = besides(target, 'new')
  const aside = besides(target, 'old')
  await rm(fresh, { recursive: true, force: true })
  try {
    await writeAll(fresh, files)
    if (isEmpty) {
      if (there) await rm(target, { recursive: true })
      await rename(fresh, target)
    } else await exchange(target, fresh, aside, [...files.keys()])
  } finally {
    await rm(fresh, { recursive: true, force: true })
  }
  return null
}

/** Why an archive may not be written to this folder, or null. */
export async function whyNoFolder(folder: string, replace: boolean): Promise<string | null> {
  const there = await stat(folder).catch(() => null)
  if (!there) return null
  if (!there.isDirectory()) return `${folder} is a file`
  if ((await readdir(folder)).length === 0) return null
  if (!(await holdsArchive(folder))) return `${folder} is not empty and holds no ${FORMAT} archive`
  return replace ? null : `${folder} holds a farm already, which --replace would take away`
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

/**
 * Moves the archive's files of `target` to `aside`, then those of `fresh` in. Where a move fails, those made are taken
 * back and the error is thrown; should even that fail, the old files stay in `aside`.
 */
async function exchange(target: string, fresh: string, aside: string, paths: readonly string[]): Promise<void> {
  const made: { from: string; to: string }[] = []
  const move = async (path: string, from: string, to: string) => {
    await mkdir(dirname(join(to, path)), { recursive: true })
    await rename(join(from, path), join(to, path))
    made.push({ from: join(from, path), to: join(to, path) })
  }
  try {
    for (const path of (await archivePaths(target)).taken) await move(path, target, aside)
    for (const path of paths) await move(path, fresh, target)
  } catch (error) {
    for (const { from, to } of made.reverse()) await rename(to, from)
    await rm(aside, { recursive: true, force: true })
    throw error
  }
  await rm(aside, { recursive: true, force: true })
}
