import { crc32, deflateSync } from 'node:zlib'
import { expect, it } from 'vitest'
import { withDotsPerInch } from '../../../src/print/paint/png.ts'
import { svgSteps } from '../../../src/sheets/print/svgSteps.ts'

const chunk = (type: string, data: Uint8Array) => {
  const out = Buffer.alloc(12 + data.length)
  out.writeUInt32BE(data.length, 0)
  out.write(type, 4, 'latin1')
  out.set(data, 8)
  out.writeUInt32BE(crc32(out.subarray(4, 8 + data.length)), 8 + data.length)
  return out
}
const SIGNATURE = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10])

it('puts a whole pHYs chunk before the picture’s data, and changes nothing else', () => {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(1, 0)
  header.writeUInt32BE(1, 4)
  header.set([8, 0], 8)
  const parts = [
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.from([0, 255]))),
    chunk('IEND', Buffer.alloc(0)),
  ]
  const told = Buffer.from(withDotsPerInch(Buffer.concat([SIGNATURE, ...parts]), 300))
  // PNG 3rd edition, 11.3.4.3: dots to the metre along x and y, then 1 for the metre; 300 / 0.0254 m = 11811.02 (C2).
  // Its checksum is reckoned by zlib.
  const data = Buffer.alloc(9)
  data.writeUInt32BE(11811, 0)
  data.writeUInt32BE(11811, 4)
  data[8] = 1
  expect(told.equals(Buffer.concat([SIGNATURE, parts[0]!, chunk('pHYs', data), parts[1]!, parts[2]!]))).toBe(true)
})

it('reads the paths of legends: absolute and relative moves, lines, level and upright ones, cubics', () => {
  // SVG 2, chapter 9: each pair of these tells the same outline (C).
  expect(svgSteps('M1 7h32')).toEqual([
    ['M', 1, 7],
    ['L', 33, 7],
  ])
  expect(svgSteps('m1,2 3-1v4H0z')).toEqual(svgSteps('M1 2 L4 1 V5 L0 5 Z'))
  expect(svgSteps('M1 1c1 0 2 1 2 2')).toEqual(svgSteps('M1 1C2 1 3 2 3 3'))
  expect(() => svgSteps('M0 0A1 1 0 0 0 2 2')).toThrow('A')
})
