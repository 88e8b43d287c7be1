import { type Zippable, zipSync } from 'fflate'
import { type ArchiveFiles, PHOTO_FOLDER } from './archive.ts'

const UNIX = 3
const PLAIN_FILE = 0o100644 << 16

/** An archive as zip bytes, the same for the same files: no clock in it, and photos stored, since they are packed already. */
export function writeZip(files: ArchiveFiles): Uint8Array {
  const zippable: Zippable = {}
  for (const [path, bytes] of files)
    zippable[path] = [
      bytes,
      { level: path.startsWith(PHOTO_FOLDER) ? 0 : 6, mtime: new Date(1980, 0, 1), os: UNIX, attrs: PLAIN_FILE },
    ]
  return zipSync(zippable)
}
