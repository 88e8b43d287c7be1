import { type Decoded, decodeText } from '../decodeText.ts'

/** XML as text: UTF-8, UTF-16 with its mark, or the encoding that the declaration names (XML 1.0, appendix F). */
export function decodeXml(bytes: Uint8Array): Decoded {
  const marked = bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff
  if (marked) return { text: new TextDecoder(marked === true ? 'utf-16be' : marked).decode(bytes) }
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 200))
  const told = /^(?:\xEF\xBB\xBF)?\s*<\?xml[^>]*\sencoding\s*=\s*["']([A-Za-z0-9._-]+)["']/.exec(head)?.[1]
  if (!told || /^utf-?8$/i.test(told)) return decodeText(bytes)
  try {
    return { text: new TextDecoder(told, { fatal: true }).decode(bytes) }
  } catch (error) {
    const unknown = error instanceof RangeError
    return {
      reason: `says that it is in ${JSON.stringify(told)}, ${unknown ? 'an encoding that is not known here' : 'which it is not'}`,
      line: 1,
    }
  }
}
