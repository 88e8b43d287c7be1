/** Text, or why the bytes are none, with the line (from 1) where they stop being so. */
export type Decoded = { readonly text: string } | { readonly reason: string; readonly line: number | null }

const MAX_BYTES = 256 * 1024 * 1024

/** Decodes UTF-8 strictly. A byte order mark is dropped; other encodings are told, never guessed. */
export function decodeText(bytes: Uint8Array): Decoded {
  if (bytes.length > MAX_BYTES)
    return { reason: `is larger than ${MAX_BYTES / 1024 / 1024} MiB, which is no file of one farm`, line: null }
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff) || halfZeros(bytes))
    return { reason: 'is in UTF-16; save it as UTF-8', line: null }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    const at = firstFlaw(bytes)
    return {
      reason: `is not UTF-8 (byte ${hex(bytes[at])} at ${at}; perhaps Latin-1 or Windows-1252): save it as UTF-8`,
      line: lineOf(bytes, at),
    }
  }
}

function halfZeros(bytes: Uint8Array): boolean {
  const look = Math.min(bytes.length, 64)
  let zeros = 0
  for (let i = 0; i < look; i++) if (bytes[i] === 0) zeros++
  return look >= 4 && zeros >= look / 3
}

/** Offset of the first byte that does not belong in UTF-8 (RFC 3629 §4), or the length. */
function firstFlaw(bytes: Uint8Array): number {
  const follows = (at: number, low = 0x80, high = 0xbf) => {
    const byte = bytes[at]
    return byte !== undefined && byte >= low && byte <= high
  }
  let at = 0
  while (at < bytes.length) {
    const lead = bytes[at]!
    if (lead < 0x80) at += 1
    else if (lead >= 0xc2 && lead <= 0xdf && follows(at + 1)) at += 2
    else if (
      lead >= 0xe0 &&
      lead <= 0xef &&
      follows(at + 1, lead === 0xe0 ? 0xa0 : 0x80, lead === 0xed ? 0x9f : 0xbf) &&
      follows(at + 2)
    )
      at += 3
    else if (
      lead >= 0xf0 &&
      lead <= 0xf4 &&
      follows(at + 1, lead === 0xf0 ? 0x90 : 0x80, lead === 0xf4 ? 0x8f : 0xbf) &&
      follows(at + 2) &&
      follows(at + 3)
    )
      at += 4
    else return at
  }
  return at
}

function lineOf(bytes: Uint8Array, at: number): number {
  let line = 1
  for (let i = 0; i < at; i++) if (bytes[i] === 0x0a || (bytes[i] === 0x0d && bytes[i + 1] !== 0x0a)) line++
  return line
}

function hex(byte: number | undefined): string {
  return byte === undefined ? 'missing' : `0x${byte.toString(16).toUpperCase().padStart(2, '0')}`
}
