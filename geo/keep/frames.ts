import { crc32 } from '../exchange/crc32.ts'
import { joined } from './shelf.ts'

const HEAD = 8

/** A value as one record of a file: length and CRC-32 (little-endian, 4 bytes each), then its JSON. */
export function frame(value: unknown): Uint8Array<ArrayBuffer> {
  const payload = new TextEncoder().encode(JSON.stringify(value))
  const head = new DataView(new ArrayBuffer(HEAD))
  head.setUint32(0, payload.length, true)
  head.setUint32(4, crc32(payload), true)
  return joined([new Uint8Array(head.buffer), payload])
}

/** A file of records without its first, whose JSON is `first`. */
export function withoutFirst(bytes: Uint8Array, first: Uint8Array): Uint8Array {
  return bytes.subarray(HEAD + first.length)
}

/** What could be read of a file of records. */
export interface Frames {
  /** JSON of each sound record. */
  readonly sound: readonly Uint8Array[]
  /** How many whole records did not agree with their checksum and were left out. */
  readonly spoilt: number
  /** True when the file ends within a record, as it does when the end came while one was written. */
  readonly torn: boolean
}

/** Reads a file of records as far as it goes. A spoilt record is passed over, since the next begins where its length says. */
export function readFrames(bytes: Uint8Array): Frames {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const sound: Uint8Array[] = []
  let spoilt = 0
  let at = 0
  while (at < bytes.length) {
    if (at + HEAD > bytes.length) return { sound, spoilt, torn: true }
    const length = view.getUint32(at, true)
    const end = at + HEAD + length
    if (length === 0 || end > bytes.length) return { sound, spoilt, torn: true }
    const payload = bytes.subarray(at + HEAD, end)
    if (crc32(payload) === view.getUint32(at + 4, true)) sound.push(payload)
    else spoilt++
    at = end
  }
  return { sound, spoilt, torn: false }
}

/** The value of a sound record. */
export function unframed(sound: Uint8Array): unknown {
  return JSON.parse(new TextDecoder().decode(sound))
}
