import type { ArchiveFiles } from './archive.ts'
import { zipParts } from './zipParts.ts'

/** An archive as zip bytes, the same for the same files: no clock in it, and photos stored, since they are packed already. */
export function writeZip(files: ArchiveFiles): Uint8Array {
  const parts = zipParts<never>(files, [])
  const zip = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
  let at = 0
  for (const part of parts) {
    zip.set(part, at)
    at += part.length
  }
  return zip
}
