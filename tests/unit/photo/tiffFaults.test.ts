import fc from 'fast-check'
import { type GeotiffWriterMetadata, writeArrayBuffer } from 'geotiff'
import { describe, expect, it } from 'vitest'
import { readPixels } from '../../../geo/photo/pixels.ts'
import { isPhotoFault } from '../../../geo/photo/placement.ts'
import { placeGeoTiff } from '../../../geo/photo/placePhoto.ts'

const tiff = (metadata: GeotiffWriterMetadata, values: number[]): Uint8Array<ArrayBuffer> =>
  new Uint8Array(writeArrayBuffer(values, metadata))

const utm33: GeotiffWriterMetadata = {
  width: 8,
  height: 6,
  ModelPixelScale: [0.5, 0.5, 0],
  ModelTiepoint: [0, 0, 0, 400000, 5001000, 0],
  GTModelTypeGeoKey: 1,
  GTRasterTypeGeoKey: 1,
  ProjectedCSTypeGeoKey: 32633,
}

/** A picture whose value is its column: 3 bands of `width` × `height`. */
const columns = (width: number, height: number): number[] =>
  Array.from({ length: width * height * 3 }, (_, i) => Math.floor(i / 3) % width)

const good = tiff(
  { ...utm33, SamplesPerPixel: 3, BitsPerSample: [8, 8, 8], PhotometricInterpretation: 2 },
  columns(8, 6),
)

describe('a file that is no sound TIFF', () => {
  it('is refused with the reason', async () => {
    const png = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52)
    for (const bytes of [
      new Uint8Array(0),
      Uint8Array.of(0x49),
      png,
      good.slice(0, 60),
      Uint8Array.of(0x49, 0x49, 42, 0, 0, 0, 0, 1),
    ])
      for (const answer of [await placeGeoTiff(bytes), await readPixels(bytes, 100)])
        expect(answer).toMatchObject({ kind: 'photo', field: 'file' })
  })

  it('may lie anywhere in its buffer', async () => {
    const buffer = new Uint8Array(good.length + 100)
    buffer.set(good, 37)
    const part = buffer.subarray(37, 37 + good.length)
    expect(await placeGeoTiff(part)).toEqual(await placeGeoTiff(good))
    expect(isPhotoFault(await placeGeoTiff(part))).toBe(false)
  })

  it('whose directories run in a circle still opens', async () => {
    const looped = good.slice()
    const view = new DataView(looped.buffer)
    const littleEndian = looped[0] === 0x49
    const first = view.getUint32(4, littleEndian)
    const next = first + 2 + 12 * view.getUint16(first, littleEndian)
    expect(view.getUint32(next, littleEndian)).toBe(0)
    view.setUint32(next, first, littleEndian)
    expect(isPhotoFault(await placeGeoTiff(looped))).toBe(false)
  })

  it('never throws, whatever bytes are wrong in it', async () => {
    expect(isPhotoFault(await readPixels(good, 100))).toBe(false)
    const wrong = fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 })
    await fc.assert(
      fc.asyncProperty(wrong, async (changes) => {
        const bytes = good.slice()
        for (const [at, value] of changes) bytes[at] = value
        const placed = await placeGeoTiff(bytes)
        const pixels = await readPixels(bytes, 16)
        if (!isPhotoFault(placed)) expect(placed.corners.flat().every(Number.isFinite)).toBe(true)
        if (!isPhotoFault(pixels)) expect(pixels.rgba.length).toBe(4 * pixels.widthPx * pixels.heightPx)
      }),
      { seed: 20261124, numRuns: 400 },
    )
  })
})

describe('a shrunk picture', () => {
  // A pixel of the result covers columns [x·s, (x + 1)·s): the mean of its columns lies within half a column of the middle.
  it.each([100, 77, 53, 10, 1])('does not shift: 211 columns to %i', async (side) => {
    const wide = tiff(
      { width: 211, height: 90, SamplesPerPixel: 3, BitsPerSample: [8, 8, 8], PhotometricInterpretation: 2 },
      columns(211, 90),
    )
    const pixels = await readPixels(wide, side)
    if (isPhotoFault(pixels)) throw new Error(pixels.detail)
    expect(pixels.widthPx).toBe(side)
    const scale = 211 / side
    let off = 0
    for (let x = 0; x < side; x += 1) {
      const middle = (x + 0.5) * scale - 0.5
      const value = pixels.rgba[4 * x]!
      expect(Math.abs(value - middle)).toBeLessThanOrEqual(1.001)
      off += value - middle
    }
    expect(Math.abs(off / side)).toBeLessThan(0.3)
  })

  it('has a side of 1 px or more', async () => {
    await expect(readPixels(good, 0)).rejects.toThrow('0 px')
    const thin = tiff(
      { width: 300, height: 1, SamplesPerPixel: 3, BitsPerSample: [8, 8, 8], PhotometricInterpretation: 2 },
      columns(300, 1),
    )
    expect(await readPixels(thin, 10)).toMatchObject({ widthPx: 10, heightPx: 1, fullWidthPx: 300 })
  })
})
