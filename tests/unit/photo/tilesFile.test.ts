import { describe, expect, it } from 'vitest'
import type { ByteSource } from '../../../geo/photo/byteSource.ts'
import { pagedSource, sourceOfBytes } from '../../../geo/photo/byteSource.ts'
import type { Level } from '../../../geo/photo/level.ts'
import { makeTiles } from '../../../geo/photo/makeTiles.ts'
import type { Raster } from '../../../geo/photo/placement.ts'
import { readTilesIndex, tilesLevels } from '../../../geo/photo/tilesFile.ts'

const WIDTH = 700
const HEIGHT = 530

/** Red tells the column, green the row, blue is 9; the lower right quarter is see-through. */
const pixel = (col: number, row: number): readonly [number, number, number, number] =>
  col >= WIDTH / 2 && row >= HEIGHT / 2 ? [0, 0, 0, 0] : [(250 * col) / WIDTH, (250 * row) / HEIGHT, 9, 255]

const base = (blockWidthPx: number, blockHeightPx: number): Level => ({
  name: 'base',
  widthPx: WIDTH,
  heightPx: HEIGHT,
  blockWidthPx,
  blockHeightPx,
  async read(across, down) {
    const widthPx = Math.min(blockWidthPx, WIDTH - across * blockWidthPx)
    const heightPx = Math.min(blockHeightPx, HEIGHT - down * blockHeightPx)
    const rgba = new Uint8ClampedArray(4 * widthPx * heightPx)
    for (let y = 0; y < heightPx; y += 1)
      for (let x = 0; x < widthPx; x += 1)
        rgba.set(pixel(across * blockWidthPx + x, down * blockHeightPx + y), 4 * (y * widthPx + x))
    return { rgba, widthPx, heightPx }
  },
})

/** Tiles packed as they are: two bytes of width, then the pixels. */
const encode = async ({ rgba, widthPx }: Raster) => new Uint8Array([widthPx >> 8, widthPx & 255, ...rgba])
const decode = async (bytes: Uint8Array<ArrayBuffer>): Promise<Raster> => {
  const widthPx = bytes[0]! * 256 + bytes[1]!
  const rgba = new Uint8ClampedArray(bytes.slice(2))
  return { rgba, widthPx, heightPx: rgba.length / (4 * widthPx) }
}

const made = async (level: Level, from: 0 | 1): Promise<Uint8Array<ArrayBuffer>> => {
  const parts: Uint8Array[] = []
  await makeTiles(level, from, { append: async (bytes) => void parts.push(bytes) }, encode, async () => undefined)
  return new Uint8Array(Buffer.concat(parts))
}

const pixelOf = async (level: Level, col: number, row: number): Promise<number[]> => {
  const block = await level.read(Math.floor(col / level.blockWidthPx), Math.floor(row / level.blockHeightPx))
  const at = 4 * ((row % level.blockHeightPx) * block.widthPx + (col % level.blockWidthPx))
  return [...block.rgba.subarray(at, at + 4)]
}

describe('a photo’s own smaller copies', () => {
  it.each([
    ['tiles', 256, 256, 1],
    ['whole rows', WIDTH, 37, 0],
    ['one block', WIDTH, HEIGHT, 1],
  ] as const)('hold the mean of the pixels that they stand for, from %s', async (_name, width, height, from) => {
    const file = sourceOfBytes(await made(base(width, height), from))
    const index = await readTilesIndex(file)
    const levels = tilesLevels(file, index!, 'own', decode)
    const sizes = [
      [700, 530],
      [350, 265],
      [175, 133],
    ]
    expect(levels.map(({ widthPx, heightPx }) => [widthPx, heightPx])).toEqual(sizes.slice(from))
    for (const level of levels) {
      const times = WIDTH / level.widthPx
      for (const [col, row] of [
        [0, 0],
        [Math.floor(level.widthPx / 3), Math.floor(level.heightPx / 3)],
        [level.widthPx - 1, 0],
        [0, level.heightPx - 2],
      ] as const) {
        const [red, green, blue, opacity] = (await pixelOf(level, col, row)) as [number, number, number, number]
        // The mean of a ramp over a pixel is its value in the pixel's middle; each halving rounds once.
        const [wantedRed, wantedGreen] = pixel((col + 0.5) * times - 0.5, (row + 0.5) * times - 0.5)
        expect(Math.abs(red - wantedRed)).toBeLessThanOrEqual(1.5)
        expect(Math.abs(green - wantedGreen)).toBeLessThanOrEqual(1.5)
        expect([blue, opacity]).toEqual([9, 255])
      }
      expect((await pixelOf(level, level.widthPx - 1, level.heightPx - 1))[3]).toBe(0)
    }
  })

  it('are made anew where the file was cut short, or is none', async () => {
    const whole = await made(base(256, 256), 1)
    expect(await readTilesIndex(sourceOfBytes(whole))).not.toBeNull()
    for (const bytes of [whole.slice(0, -1), whole.slice(0, 40), new Uint8Array(0), whole.slice(0, -16)])
      expect(await readTilesIndex(sourceOfBytes(bytes))).toBeNull()
  })

  it('can be stopped between rows', async () => {
    const stop = new DOMException('stopped', 'AbortError')
    const making = makeTiles(base(256, 256), 1, { append: async () => undefined }, encode, async (done) => {
      if (done > 0) throw stop
    })
    await expect(making).rejects.toBe(stop)
  })
})

describe('a file read by pages', () => {
  it('gives the same bytes as the file, wherever a part begins and ends, and asks for each page once', async () => {
    const all = Uint8Array.from({ length: 300_000 }, (_, i) => (i * 7919) >> 3)
    let asked = 0
    const source: ByteSource = {
      bytes: all.length,
      read: async (at, length) => {
        asked += 1
        return all.slice(at, at + length)
      },
    }
    const paged = pagedSource(source)
    for (const [at, length] of [
      [0, 10],
      [65_530, 20],
      [131_071, 2],
      [299_990, 100],
      [400_000, 5],
      [10, 200_000],
    ] as const)
      expect(Buffer.compare(await paged.read(at, length), all.slice(at, at + length))).toBe(0)
    const before = asked
    await paged.read(5, 100)
    expect(asked).toBe(before)
  })
})
