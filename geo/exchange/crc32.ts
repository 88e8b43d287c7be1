const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n
  for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1
  return c
})

/**
 * CRC-32 of bytes (ISO-HDLC, reflected polynomial 0xEDB88320: that of RFC 1952, section 8). `before` is that of the
 * bytes before these, where a file comes piece by piece.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let c = ~before
  for (const byte of bytes) c = (c >>> 8) ^ TABLE[(c ^ byte) & 0xff]!
  return (c ^ 0xffffffff) >>> 0
}
