import { zipSync } from 'fflate'
import type { Position } from 'geojson'
import { getDecoder } from 'geotiff'
import { beforeAll, describe, expect, it } from 'vitest'
import { drawPhoto } from '../../../fixtures/demo/drawPhoto.ts'
import { growDemo } from '../../../fixtures/demo/growDemo.ts'
import { makeDemo } from '../../../fixtures/demo/makeDemo.ts'
import { encodeJpeg } from '../../../fixtures/demo/photo/jpeg.ts'
import { randomStream } from '../../../fixtures/demo/random.ts'
import { openDemo } from './opened.ts'

type Photo = { file: string; on: string; corners: Position[]; residuals: null }
const width = 2400
const height = 1800
let files: Map<string, Uint8Array>
let photo: Photo
/** Luma and two chromas of each pixel, as the decoder of geotiff.js reads them. */
let seen: Uint8Array
const demo = openDemo()

async function decode(jpeg: Uint8Array): Promise<Uint8Array> {
  const decoder = await getDecoder(7, {
    tileWidth: width,
    tileHeight: height,
    predictor: 1,
    bitsPerSample: [8, 8, 8],
    planarConfiguration: 1,
  })
  return new Uint8Array((await decoder.decodeBlock(jpeg.slice().buffer)) as ArrayBuffer)
}

beforeAll(async () => {
  files = makeDemo()
  const [listed] = JSON.parse(new TextDecoder().decode(files.get('photos.json'))) as Photo[]
  photo = listed!
  seen = await decode(files.get(`photos/${photo.file}`)!)
}, 60_000)

/** Pixel of a place by the listed corners, in columns and rows from the outer edge. */
function pixelOf([lon, lat]: Position): [number, number] {
  const [ul, ur, , ll] = photo.corners as [Position, Position, Position, Position]
  return [((lon! - ul[0]!) / (ur[0]! - ul[0]!)) * width, ((lat! - ul[1]!) / (ll[1]! - ul[1]!)) * height]
}

const colour = ([x, y]: [number, number]): [luma: number, blue: number, red: number] => {
  const at = (Math.floor(y) * width + Math.floor(x)) * 3
  return [seen[at]!, seen[at + 1]!, seen[at + 2]!]
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

describe('the aerial photo', () => {
  it('is a JPEG (ITU-T T.81) that another decoder reads, true to what was drawn', async () => {
    expect(seen).toHaveLength(width * height * 3)
    const { rgba } = drawPhoto(growDemo(1), randomStream(1, 'photo'))
    let error = 0
    for (let i = 0; i < width * height; i++) {
      error += (0.299 * rgba[i * 4]! + 0.587 * rgba[i * 4 + 1]! + 0.114 * rgba[i * 4 + 2]! - seen[i * 3]!) ** 2
    }
    expect(10 * Math.log10(255 ** 2 / (error / width / height))).toBeGreaterThan(33)
    expect(Buffer.compare(encodeJpeg(rgba, width, height, 74), files.get(`photos/${photo.file}`)!)).toBe(0)
  }, 60_000)

  it('encodes sizes that are no multiple of eight, and one even colour, as the standard’s formula for luma has it', async () => {
    const rgba = new Uint8ClampedArray(13 * 9 * 4).map((_, i) => [200, 100, 50, 255][i % 4]!)
    const read = await decode(encodeJpeg(rgba, 13, 9, 90))
    expect(read).toHaveLength(13 * 9 * 3)
    // 0.299 · 200 + 0.587 · 100 + 0.114 · 50
    for (let i = 0; i < 13 * 9; i++) expect(Math.abs(read[i * 3]! - 124.2)).toBeLessThan(2)
  })

  it('lies where its corners say: the beds by the river stand out from their straw paths to a decimetre', () => {
    const beds = demo.beds.filter((bed) => /^S([4-9]|1[0-4])$/.test(String(bed.properties.name)))
    expect(beds).toHaveLength(11)
    /** Mean luma on lines along the beds, so far to the right of their middle. */
    const lumaAt = (offM: number) =>
      mean(
        beds.flatMap((bed) => {
          const [a, b, c, d] = bed.geometry.coordinates[0] as [Position, Position, Position, Position]
          const t = 0.5 + offM / 1.2
          return Array.from({ length: 60 }, (_, i) => {
            const s = 0.05 + (0.9 * i) / 59
            const along = (from: Position, to: Position) => [
              from[0]! + (to[0]! - from[0]!) * s,
              from[1]! + (to[1]! - from[1]!) * s,
            ]
            const [left, right] = [along(d, c), along(a, b)] as [Position, Position]
            return colour(pixelOf([left[0]! + (right[0]! - left[0]!) * t, left[1]! + (right[1]! - left[1]!) * t]))[0]
          })
        }),
      )
    const path = mean([-0.85, 0.85].map(lumaAt))
    const bed = mean([-0.5, -0.45, 0.45, 0.5].map(lumaAt))
    expect(path - bed).toBeGreaterThan(20)
    for (const side of [-1, 1]) {
      const edge = Array.from({ length: 40 }, (_, i) => 0.4 + i * 0.01).find(
        (off) => lumaAt(side * off) > (path + bed) / 2,
      )
      expect(Math.abs(edge! - 0.6), `side ${side}`).toBeLessThan(0.1)
    }
  })

  it('shows a red roof on the barn’s ground and water where the river is', () => {
    const shapeOf = (id: string) =>
      demo.structures.find((one) => one.properties.id === id)!.geometry.coordinates[0] as Position[]
    const barn = shapeOf('g-barn').slice(0, 4)
    const within = (shape: Position[], part: number): Position[] => {
      const middle = [0, 1].map((j) => mean(shape.map((corner) => corner[j]!)))
      return shape.map((corner) => [0, 1].map((j) => middle[j]! + (corner[j]! - middle[j]!) * part))
    }
    for (const corner of within(barn, 0.9)) expect(colour(pixelOf(corner))[2]).toBeGreaterThan(138)
    for (const corner of within(barn, 1.15)) expect(colour(pixelOf(corner))[2]).toBeLessThan(138)
    const river = shapeOf('g-river')
    for (const lonStep of [0.2, 0.35, 0.5, 0.65, 0.8]) {
      const column = Math.round(lonStep * width)
      const [north, south] = ['max', 'min'].map((end) => {
        const near = river
          .map(pixelOf)
          .filter(([x]) => Math.abs(x - column) < 420)
          .map(([, y]) => y)
        return end === 'max' ? Math.min(...near) : Math.max(...near)
      }) as [number, number]
      expect(colour([column, (north + south) / 2])[1], `column ${column}`).toBeGreaterThan(122)
    }
  })

  it('has a world file that says the same as its corners, to a fiftieth of a pixel', () => {
    const lines = new TextDecoder()
      .decode(files.get(`photos/${photo.file.replace('.jpg', '.jgw')}`))
      .trim()
      .split('\n')
      .map(Number)
    const [a, d, b, e, c, f] = lines as [number, number, number, number, number, number]
    // x = A·column + B·row + C from pixel centres, so the outer corner of the upper left pixel is column and row −0.5.
    const corners = [
      [-0.5, -0.5],
      [width - 0.5, -0.5],
      [width - 0.5, height - 0.5],
      [-0.5, height - 0.5],
    ] as const
    for (const [i, [column, row]] of corners.entries()) {
      expect(Math.abs((a * column + b * row + c - photo.corners[i]![0]!) / a)).toBeLessThan(0.02)
      expect(Math.abs((d * column + e * row + f - photo.corners[i]![1]!) / e)).toBeLessThan(0.02)
    }
  })

  it('keeps the whole archive small, and the same for the same seed', () => {
    expect(zipSync(Object.fromEntries(files)).length).toBeLessThan(1_500_000)
    expect(photo.on >= '2026-01-01' && photo.on < '2026-11-24').toBe(true)
    for (const [name, bytes] of makeDemo()) expect(Buffer.compare(bytes, files.get(name)!), name).toBe(0)
  }, 60_000)
})
