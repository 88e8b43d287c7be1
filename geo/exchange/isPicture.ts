/** How the pictures that can be shown begin: PNG, JPEG, TIFF and BigTIFF in either byte order, WebP; -1 is any byte. */
const BEGINNINGS: readonly (readonly number[])[] = [
  [0x89, 0x50, 0x4e, 0x47],
  [0xff, 0xd8, 0xff],
  [0x49, 0x49, 0x2a, 0x00],
  [0x4d, 0x4d, 0x00, 0x2a],
  [0x49, 0x49, 0x2b, 0x00],
  [0x4d, 0x4d, 0x00, 0x2b],
  [0x52, 0x49, 0x46, 0x46, -1, -1, -1, -1, 0x57, 0x45, 0x42, 0x50],
]

/** True for bytes that begin as a picture does that can be shown; how they go on is not looked at. */
export function isPicture(bytes: Uint8Array): boolean {
  return BEGINNINGS.some((beginning) => beginning.every((byte, i) => byte === -1 || bytes[i] === byte))
}
