import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { crc32 } from '../../../geo/exchange/crc32.ts'
import { readByTurns, writeByTurns } from '../../../geo/keep/byTurns.ts'
import { frame, readFrames, unframed } from '../../../geo/keep/frames.ts'
import { joined, memoryShelf } from '../../../geo/keep/shelf.ts'

const text = (value: string) => new TextEncoder().encode(value)

describe('CRC-32', () => {
  it('meets the published check values', () => {
    // CRC-32/ISO-HDLC of "123456789" in Ross Williams' catalogue of CRC algorithms (M); RFC 3720's is another polynomial.
    expect(crc32(text('123456789'))).toBe(0xcbf43926)
    // The PNG specification, annex D: the CRC of an empty IEND chunk is AE 42 60 82 (C2).
    expect(crc32(text('IEND'))).toBe(0xae426082)
  })
})

describe('records of a file', () => {
  const records = fc.array(fc.record({ label: fc.string(), n: fc.double({ noNaN: true }) }), { maxLength: 8 })

  it('come back, and cut anywhere give those before the cut', () => {
    fc.assert(
      fc.property(records, fc.nat(), (values, where) => {
        const frames = values.map(frame)
        const whole = joined(frames)
        const cut = where % (whole.length + 1)
        const { sound, spoilt, torn } = readFrames(whole.subarray(0, cut))
        let before = 0
        let at = 0
        while (before < frames.length && at + frames[before]!.length <= cut) at += frames[before++]!.length
        expect(sound.map(unframed)).toEqual(JSON.parse(JSON.stringify(values.slice(0, before))))
        expect(spoilt).toBe(0)
        expect(torn).toBe(cut > at)
      }),
      { seed: 11 },
    )
  })

  it('are never taken for sound when a byte of them has changed', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), fc.nat(), fc.integer({ min: 1, max: 255 }), (label, where, flip) => {
        const bytes = joined([frame({ label }), frame('next')])
        const at = where % frame({ label }).length
        bytes[at] = bytes[at]! ^ flip
        expect(readFrames(bytes).sound.map(unframed)).not.toContainEqual({ label })
      }),
      { seed: 12 },
    )
  })

  it('do not read a tail of zeros, which a disk may leave, as records', () => {
    const { sound, torn } = readFrames(joined([frame(1), new Uint8Array(64)]))
    expect(sound.map(unframed)).toEqual([1])
    expect(torn).toBe(true)
  })
})

describe('a value written by turns', () => {
  it('is the old or the new one, however the writing ends', async () => {
    const files = new Map<string, Uint8Array>()
    const shelf = memoryShelf(files)
    expect(await readByTurns(shelf, 'entry')).toBeNull()
    for (let n = 1; n <= 5; n++) {
      const before = new Map(files)
      await writeByTurns(shelf, 'entry', { n })
      expect(await readByTurns(shelf, 'entry')).toEqual({ n })
      const written = [...files].find(([name, bytes]) => before.get(name) !== bytes)!
      for (let cut = 0; cut < written[1].length; cut++) {
        const ended = memoryShelf(new Map([...before, [written[0], written[1].subarray(0, cut)]]))
        expect(await readByTurns(ended, 'entry')).toEqual(n === 1 ? null : { n: n - 1 })
      }
    }
  })
})
