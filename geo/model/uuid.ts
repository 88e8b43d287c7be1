/** A UUIDv7 (RFC 9562 §5.7) from a time in milliseconds and 10 random bytes; sorts by time. */
export function uuid7(nowMs: number, random: Uint8Array): string {
  if (random.length < 10) throw new Error(`a UUIDv7 wants 10 random bytes, not ${random.length}`)
  const time = Math.floor(nowMs).toString(16).padStart(12, '0')
  const hex = Array.from(random.subarray(0, 10), (byte) => byte.toString(16).padStart(2, '0')).join('')
  const variant = ((random[2]! & 0x3f) | 0x80).toString(16).padStart(2, '0')
  return `${time.slice(0, 8)}-${time.slice(8)}-7${hex.slice(1, 4)}-${variant}${hex.slice(6, 8)}-${hex.slice(8)}`
}
