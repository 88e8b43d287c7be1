/** The text of a file that may come from an old spreadsheet; `assumed` tells what was taken for granted of its letters. */
export function decodeNotebook(bytes: Uint8Array): { readonly text: string; readonly assumed: string | null } {
  const utf16 =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null
  if (utf16) return { text: new TextDecoder(utf16).decode(bytes), assumed: null }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), assumed: null }
  } catch {
    return {
      text: new TextDecoder('windows-1252').decode(bytes),
      assumed:
        'The file is not UTF-8: its letters were taken for Windows-1252. Look whether names with accents are right.',
    }
  }
}
