import { realpath, rename, rm, stat, writeFile } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'

/** A hidden place beside a file or folder, on the same disk, for what is not yet, or no more, in its place. */
export function besides(target: string, what: 'new' | 'old'): string {
  return join(dirname(target), `.selion-${what}-${process.pid}`)
}

/**
 * Writes a file whole or not at all: beside its place first, then moved there, so that an older one stands until the new
 * one does. Throws as the file system does.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const target = await realpath(path).catch(() => resolve(path))
  const there = await stat(target).catch(() => null)
  if (there && !there.isFile() && !there.isDirectory()) return writeFile(target, bytes)
  const fresh = besides(target, 'new')
  try {
    await writeFile(fresh, bytes)
    await rename(fresh, target)
  } finally {
    await rm(fresh, { force: true })
  }
}
