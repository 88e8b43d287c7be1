import { expect, it } from 'vitest'
import { tellsRoom } from '../../../src/desk/shelf/hasRoom.ts'

// Storage Standard, section 8: `usage` and `quota` of an estimate, in bytes, either of which may be left out.
it.each([
  [{ quota: 100, usage: 40 }, true],
  [{ quota: 100, usage: 41 }, false],
  [{ usage: 10 }, true],
  [{}, true],
])('a browser that tells %o has room for 60 bytes: %s', async (told, has) => {
  expect(await tellsRoom(60, { estimate: async () => told })).toBe(has)
})

it('is taken for granted where the browser tells nothing', async () => {
  expect(await tellsRoom(60, { estimate: () => Promise.reject(new TypeError('no bucket')) })).toBe(true)
})
