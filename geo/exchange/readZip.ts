import { Inflate } from 'fflate'
import type { ArchiveFiles, Fault } from './archive.ts'
import { crc32 } from './crc32.ts'
import { readDirectory, type ZipEntry } from './zipDirectory.ts'

const MOST_ENTRIES = 10_000
const MOST_BYTES = 1024 ** 3
/** What grows more than this, and is large, a file or all together, is a bomb and no farm. */
const MOST_GROWTH = 200
const LARGE_BYTES = 64 * 1024 ** 2
const STEP_BYTES = 16 * 1024

/** From the paths of a zip's files, which of them are wanted. */
export type Choose = (paths: readonly string[]) => (path: string) => boolean

const allButHidden: Choose = () => (path) => !isHidden(path)

/**
 * The files of a zip that are wanted. Nothing is trusted: paths that lead out of the archive, links, locked, overlapping
 * or damaged files and bombs are faults and left out. Folders and files that systems add are passed over. Whether all of
 * it is a bomb is seen by the zip's directory, before anything is unpacked; then there are no files.
 */
export function readZip(zip: Uint8Array, choose: Choose = allButHidden): { files: ArchiveFiles; faults: Fault[] } {
  const files = new Map<string, Uint8Array>()
  const faults: Fault[] = []
  const wrong = (file: string, reason: string) => faults.push({ file, record: '', field: '', reason })
  const entries = readDirectory(zip, MOST_ENTRIES)
  if (entries === null) wrong('', 'is not a zip, or is cut short')
  else if (entries === 'too many') wrong('', `holds more than ${MOST_ENTRIES} files`)
  if (!Array.isArray(entries)) return { files, faults }
  const safe: ZipEntry[] = []
  for (const entry of entries) {
    const unsafe = whyUnsafe(entry.path) ?? (entry.isLink ? 'is a link, which is not followed' : null)
    if (unsafe) wrong(entry.path, unsafe)
    else if (!entry.isFolder && !isSystemFile(entry.path)) safe.push(entry)
  }
  const isWanted = choose(safe.map(({ path }) => path))
  const seen = new Set<string>()
  const overlapping = overlaps(entries)
  const sound: ZipEntry[] = []
  for (const entry of safe.filter(({ path }) => isWanted(path))) {
    const known = entry.path.toLowerCase()
    const refused = seen.has(known) ? 'stands twice in the zip' : whyRefused(entry, overlapping)
    seen.add(known)
    if (refused) wrong(entry.path, refused)
    else sound.push(entry)
  }
  const bomb = whyBomb(sound)
  if (bomb) {
    wrong(bomb.path, bomb.reason)
    return { files, faults }
  }
  for (const entry of sound) {
    const unpacked = unpack(zip, entry)
    if (typeof unpacked === 'string') wrong(entry.path, unpacked)
    else files.set(entry.path, unpacked)
  }
  return { files, faults }
}

/** Why files are not to be unpacked together, as the zip's directory tells their sizes, with the file that is too much. */
function whyBomb(entries: readonly ZipEntry[]): { path: string; reason: string } | null {
  let bytes = 0
  let packedBytes = 0
  for (const entry of entries) {
    bytes += entry.bytes
    packedBytes += entry.packedBytes
    if (bytes > MOST_BYTES)
      return { path: entry.path, reason: `brings the unpacked files above ${MOST_BYTES / 1024 ** 3} GiB` }
  }
  if (bytes <= LARGE_BYTES || bytes <= MOST_GROWTH * packedBytes) return null
  return { path: '', reason: `grows more than ${MOST_GROWTH} times when unpacked, as only a bomb does` }
}

/** Why a path may not be read, or null. */
export function whyUnsafe(path: string): string | null {
  if (path.startsWith('/') || /^[A-Za-z]:/.test(path)) return 'has a path from the root of a disk'
  if (path.includes('\\')) return 'has a path with a backslash'
  if (path.split('/').includes('..')) return 'has a path that leads out of the archive'
  if (/\p{Cc}/u.test(path) || path === '' || path.length > 1000) return 'has a path that is none'
  return null
}

/** True for what systems put beside one's files: the resource forks and notes on folders of some. */
export function isSystemFile(path: string): boolean {
  return path
    .split('/')
    .some(
      (part) => part === '__MACOSX' || part.startsWith('._') || /^(\.ds_store|thumbs\.db|desktop\.ini)$/i.test(part),
    )
}

export function isHidden(path: string): boolean {
  return path.split('/').some((part) => part.startsWith('.'))
}

function whyRefused(entry: ZipEntry, overlapping: ReadonlySet<ZipEntry>): string | null {
  if (entry.encrypted) return 'is locked with a password'
  if (entry.method !== 0 && entry.method !== 8) return `is packed by method ${entry.method}, which is not read here`
  if (entry.start === null) return 'is cut short'
  if (overlapping.has(entry)) return 'shares its bytes with another file of the zip, as only a bomb does'
  if (entry.bytes > LARGE_BYTES && entry.bytes > MOST_GROWTH * entry.packedBytes)
    return `grows more than ${MOST_GROWTH} times when unpacked, as only a bomb does`
  return null
}

function overlaps(entries: readonly ZipEntry[]): Set<ZipEntry> {
  const placed = entries.filter((e) => e.start !== null && e.packedBytes > 0).sort((a, b) => a.start! - b.start!)
  const found = new Set<ZipEntry>()
  let end = 0
  for (const entry of placed) {
    if (entry.start! < end) found.add(entry)
    end = Math.max(end, entry.start! + entry.packedBytes)
  }
  return found
}

/** The unpacked bytes, or what is wrong with them. Stops as soon as more comes out than was told. */
function unpack(zip: Uint8Array, entry: ZipEntry): Uint8Array | string {
  const packed = zip.subarray(entry.start!, entry.start! + entry.packedBytes)
  const damaged = 'is damaged: its bytes are not those that were packed'
  if (entry.method === 0) return packed.length === entry.bytes && crc32(packed) === entry.crc ? packed : damaged
  const out = new Uint8Array(entry.bytes)
  let length = 0
  let over = false
  const inflate = new Inflate((chunk) => {
    if (length + chunk.length > out.length) over = true
    else out.set(chunk, length)
    length += chunk.length
  })
  try {
    for (let at = 0; at < packed.length && !over; at += STEP_BYTES)
      inflate.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length)
  } catch {
    return damaged
  }
  if (over) return 'unpacks to more bytes than the zip tells'
  return length === out.length && crc32(out) === entry.crc ? out : damaged
}
