/** One file of a zip, as its central directory tells it. */
export interface ZipEntry {
  readonly path: string
  readonly method: number
  readonly encrypted: boolean
  readonly isFolder: boolean
  readonly isLink: boolean
  readonly crc: number
  readonly packedBytes: number
  readonly bytes: number
  /** Where its packed bytes begin, or null where its local header is not there. */
  readonly start: number | null
}

const END = 0x06054b50
const END64 = 0x06064b50
const CENTRAL = 0x02014b50
const LOCAL = 0x04034b50
const ALL_ONES = 0xffffffff

/** The central directory of a zip (PKWARE APPNOTE 6.3.10 §4.3), zip64 included; null where the bytes are no whole zip. */
export function readDirectory(zip: Uint8Array, mostEntries: number): ZipEntry[] | 'too many' | null {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength)
  const end = findEnd(view)
  if (end === null) return null
  let count = view.getUint16(end + 10, true)
  let at = view.getUint32(end + 16, true)
  if (count === 0xffff || at === ALL_ONES) {
    const end64 = end >= 20 ? bigNumber(view, end - 20 + 8) : null
    if (end64 === null || end64 + 56 > zip.length || view.getUint32(end64, true) !== END64) return null
    count = bigNumber(view, end64 + 32) ?? 0
    at = bigNumber(view, end64 + 48) ?? 0
  }
  if (count > mostEntries) return 'too many'
  const entries: ZipEntry[] = []
  for (let i = 0; i < count; i++) {
    if (at + 46 > zip.length || view.getUint32(at, true) !== CENTRAL) return null
    const [nameBytes, extraBytes, noteBytes] = [28, 30, 32].map((o) => view.getUint16(at + o, true)) as [
      number,
      number,
      number,
    ]
    if (at + 46 + nameBytes + extraBytes + noteBytes > zip.length) return null
    entries.push(readEntry(zip, view, at, nameBytes, extraBytes))
    at += 46 + nameBytes + extraBytes + noteBytes
  }
  return entries
}

function findEnd(view: DataView): number | null {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 0xffff); at--)
    if (view.getUint32(at, true) === END && at + 22 + view.getUint16(at + 20, true) === view.byteLength) return at
  return null
}

function bigNumber(view: DataView, at: number): number | null {
  if (at + 8 > view.byteLength) return null
  const value = view.getBigUint64(at, true)
  return value > BigInt(Number.MAX_SAFE_INTEGER) ? null : Number(value)
}

function readEntry(zip: Uint8Array, view: DataView, at: number, nameBytes: number, extraBytes: number): ZipEntry {
  const flags = view.getUint16(at + 8, true)
  const name = zip.subarray(at + 46, at + 46 + nameBytes)
  const wide = zip64Sizes(
    view,
    at + 46 + nameBytes,
    extraBytes,
    [24, 20, 42].map((o) => view.getUint32(at + o, true)),
  )
  const [bytes, packedBytes, header] = wide as [number, number, number]
  const path = nameText(name)
  const madeBy = view.getUint8(at + 5)
  const mode = view.getUint32(at + 38, true) >>> 16
  const hasHeader = header + 30 <= zip.length && view.getUint32(header, true) === LOCAL
  const start = hasHeader ? header + 30 + view.getUint16(header + 26, true) + view.getUint16(header + 28, true) : null
  return {
    path,
    method: view.getUint16(at + 10, true),
    encrypted: (flags & 1) === 1,
    isFolder: path.endsWith('/'),
    isLink: (madeBy === 3 || madeBy === 19) && (mode & 0o170000) === 0o120000,
    crc: view.getUint32(at + 16, true),
    packedBytes,
    bytes,
    start: start !== null && start + packedBytes <= zip.length ? start : null,
  }
}

/** Size, packed size and offset, taken from the zip64 field where the plain ones are all ones. */
function zip64Sizes(view: DataView, from: number, length: number, plain: number[]): number[] {
  if (!plain.includes(ALL_ONES)) return plain
  for (let at = from; at + 4 <= from + length; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue
    let next = at + 4
    return plain.map((value) => {
      if (value !== ALL_ONES) return value
      next += 8
      return bigNumber(view, next - 8) ?? Number.MAX_SAFE_INTEGER
    })
  }
  return plain
}

function nameText(name: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(name)
  } catch {
    return new TextDecoder('latin1').decode(name)
  }
}
