import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { decodeText } from '../../../geo/exchange/decodeText.ts'

describe('bytes as text', () => {
  it('drops a byte order mark and keeps everything else', () => {
    expect(decodeText(new Uint8Array([0xef, 0xbb, 0xbf, 0x61, 0xef, 0xbb, 0xbf]))).toEqual({ text: 'a\ufeff' })
  })
  it('tells an archive that is far too large', () => {
    expect(decodeText(new Uint8Array(256 * 1024 * 1024 + 1))).toMatchObject({
      reason: expect.stringMatching(/256 MiB/),
    })
  })
  it('keeps any text through UTF-8 and back', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        fc.pre(!text.includes('\0') && !text.startsWith('\ufeff'))
        expect(decodeText(new TextEncoder().encode(text))).toEqual({ text: text.toWellFormed() })
      }),
      { seed: 3629 },
    )
  })
  // X: the engine's own decoder takes what stands before the flaw told, and nothing that goes on behind it.
  it('tells the byte at which UTF-8 ends', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', minLength: 8 }),
        fc.nat(),
        fc.integer({ min: 0x80, max: 0xff }),
        (text, at, byte) => {
          fc.pre(!text.includes('\0') && !text.startsWith('\ufeff'))
          const bytes = new TextEncoder().encode(text)
          bytes[at % bytes.length] = byte
          const strict = new TextDecoder('utf-8', { fatal: true })
          const decoded = decodeText(bytes)
          if ('text' in decoded) {
            expect(strict.decode(bytes)).toBe(decoded.text)
            return
          }
          fc.pre(!decoded.reason.includes('UTF-16'))
          const flaw = Number(/ at (\d+);/.exec(decoded.reason)![1])
          expect(() => strict.decode(bytes.subarray(0, flaw))).not.toThrow()
          const loose = new TextDecoder('utf-8')
          expect(loose.decode(bytes.subarray(flaw, flaw + 4))).toMatch(/^\ufffd/)
        },
      ),
      { seed: 3630, numRuns: 1000 },
    )
  })
})
