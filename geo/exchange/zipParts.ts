import { deflateSync } from 'fflate'
import { PHOTO_FOLDER } from './archive.ts'
import { crc32 } from './crc32.ts'

/** A file of a zip whose bytes lie elsewhere: stored as they are, so that they need not pass through here. */
export interface ZipPart<P> {
  readonly path: string
  readonly bytes: number
  readonly crc: number
  readonly part: P
}

const LOCAL = 0x04034b50
const CENTRAL = 0x02014b50
const END64 = 0x06064b50
const LOCATOR64 = 0x07064b50
const END = 0x06054b50
const ALL_ONES = 0xffffffff
const UNIX = 3
const PLAIN_FILE = 0o100644 << 16
const STORED = 0
const DEFLATED = 8
const NAMES_IN_UTF8 = 1 << 11
/** 1 January 1980, so that the same files make the same zip. */
const DAY = (1 << 5) | 1
const PLAIN_VERSION = 20
const ZIP64_VERSION = 45

interface Entry {
  readonly path: Uint8Array
  readonly method: number
  readonly crc: number
  readonly packed: number
  readonly bytes: number
  readonly at: number
}

/** Little-endian numbers one after another: each with how many bytes it takes. */
const numbers = (...told: readonly (readonly [value: number, bytes: 2 | 4 | 8])[]): Uint8Array<ArrayBuffer> => {
  const out = new Uint8Array(told.reduce((sum, [, bytes]) => sum + bytes, 0))
  const view = new DataView(out.buffer)
  let at = 0
  for (const [value, bytes] of told) {
    if (bytes === 2) view.setUint16(at, value, true)
    else if (bytes === 4) view.setUint32(at, value >>> 0, true)
    else view.setBigUint64(at, BigInt(value), true)
    at += bytes
  }
  return out
}

const wide = (value: number): boolean => value >= ALL_ONES
const plain = (value: number): number => Math.min(value, ALL_ONES)

/** The zip64 field with those of the numbers that are too wide for their place (PKWARE APPNOTE 6.3.10 §4.5.3). */
const wideField = (values: readonly number[]): Uint8Array<ArrayBuffer> => {
  const told = values.filter(wide)
  return told.length === 0
    ? new Uint8Array(0)
    : numbers([1, 2], [8 * told.length, 2], ...told.map((value) => [value, 8] as const))
}

const localHead = ({ path, method, crc, packed, bytes }: Entry): Uint8Array[] => {
  // In a local header both sizes stand in the zip64 field, or neither.
  const isWide = wide(bytes) || wide(packed)
  const field = isWide ? numbers([1, 2], [16, 2], [bytes, 8], [packed, 8]) : new Uint8Array(0)
  const head = numbers(
    [LOCAL, 4],
    [isWide ? ZIP64_VERSION : PLAIN_VERSION, 2],
    [NAMES_IN_UTF8, 2],
    [method, 2],
    [0, 2],
    [DAY, 2],
    [crc, 4],
    [isWide ? ALL_ONES : packed, 4],
    [isWide ? ALL_ONES : bytes, 4],
    [path.length, 2],
    [field.length, 2],
  )
  return [head, path, field]
}

const centralHead = ({ path, method, crc, packed, bytes, at }: Entry): Uint8Array[] => {
  const field = wideField([bytes, packed, at])
  const version = field.length > 0 ? ZIP64_VERSION : PLAIN_VERSION
  const head = numbers(
    [CENTRAL, 4],
    [(UNIX << 8) | version, 2],
    [version, 2],
    [NAMES_IN_UTF8, 2],
    [method, 2],
    [0, 2],
    [DAY, 2],
    [crc, 4],
    [plain(packed), 4],
    [plain(bytes), 4],
    [path.length, 2],
    [field.length, 2],
    [0, 2],
    [0, 2],
    [0, 2],
    [PLAIN_FILE, 4],
    [plain(at), 4],
  )
  return [head, path, field]
}

const ends = (count: number, at: number, bytes: number): Uint8Array[] => {
  const isWide = count >= 0xffff || wide(at) || wide(bytes)
  const end = numbers(
    [END, 4],
    [0, 2],
    [0, 2],
    [isWide ? 0xffff : count, 2],
    [isWide ? 0xffff : count, 2],
    [isWide ? ALL_ONES : bytes, 4],
    [isWide ? ALL_ONES : at, 4],
    [0, 2],
  )
  if (!isWide) return [end]
  const end64 = numbers(
    [END64, 4],
    [44, 8],
    [(UNIX << 8) | ZIP64_VERSION, 2],
    [ZIP64_VERSION, 2],
    [0, 4],
    [0, 4],
    [count, 8],
    [count, 8],
    [bytes, 8],
    [at, 8],
  )
  return [end64, numbers([LOCATOR64, 4], [0, 4], [at + bytes, 8], [1, 4]), end]
}

/**
 * The parts of a zip one after another, the same for the same files. `files` are packed here, but those of the photos
 * folder, which are packed already; `parts` are stored, and come back in their places as they were given. Beyond 4 GB it
 * is a zip64.
 */
export function zipParts<P>(
  files: Iterable<readonly [path: string, bytes: Uint8Array]>,
  parts: readonly ZipPart<P>[],
): (Uint8Array | P)[] {
  const out: (Uint8Array | P)[] = []
  const entries: Entry[] = []
  let at = 0
  const add = (entry: Omit<Entry, 'at' | 'path'> & { path: string }, content: Uint8Array | P): void => {
    const whole = { ...entry, path: new TextEncoder().encode(entry.path), at }
    const head = localHead(whole)
    out.push(...head, content)
    at += head.reduce((sum, one) => sum + one.length, 0) + entry.packed
    entries.push(whole)
  }
  for (const [path, bytes] of files) {
    const isStored = path.startsWith(PHOTO_FOLDER)
    const packed = isStored ? bytes : deflateSync(bytes, { level: 6 })
    const method = isStored ? STORED : DEFLATED
    add({ path, method, crc: crc32(bytes), packed: packed.length, bytes: bytes.length }, packed)
  }
  for (const { path, bytes, crc, part } of parts) add({ path, method: STORED, crc, packed: bytes, bytes }, part)
  const directory = entries.flatMap(centralHead)
  const length = directory.reduce((sum, one) => sum + one.length, 0)
  out.push(...directory, ...ends(entries.length, at, length))
  return out
}
