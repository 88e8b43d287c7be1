/** Text that may be in an encoding older than UTF-8, with what was assumed of it; null where nothing was. */
export interface LegacyText {
  readonly text: string
  readonly assumed: string | null
}

/** UTF-16 by its mark, else UTF-8, else Windows-1252 (which Latin-1 is a part of), which fits any bytes. */
export function decodeLegacy(bytes: Uint8Array): LegacyText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes), assumed: null }
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes), assumed: null }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), assumed: null }
  } catch {
    return { text: new TextDecoder('windows-1252').decode(bytes), assumed: 'Windows-1252 (Latin-1)' }
  }
}
