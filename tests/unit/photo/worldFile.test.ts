import { describe, expect, it } from 'vitest'
import { gridAt } from '../../../geo/photo/affine.ts'
import { crsOfEpsg } from '../../../geo/photo/crs.ts'
import { isPhotoFault, type PhotoFault } from '../../../geo/photo/placement.ts'
import { placeByWorldFile } from '../../../geo/photo/placePhoto.ts'
import { parseWorldFile, readWorldFile } from '../../../geo/photo/worldFile.ts'

const sound = <T extends object>(value: T | PhotoFault): T => {
  if (isPhotoFault(value)) throw new Error(`${value.field}: ${value.detail}`)
  return value
}

const half = '0.5\n0\n0\n-0.5\n400000.25\n5000999.75\n'

// Esri's definition (C): lines A, D, B, E, C, F; x = A·col + B·row + C, y = D·col + E·row + F, for pixel centres.
describe('a world file', () => {
  it('gives the centre of the upper-left pixel, half a pixel inside its corner', () => {
    const affine = sound(parseWorldFile(half))
    expect(gridAt(affine, 0, 0)).toEqual([400000, 5001000])
    expect(gridAt(affine, 0.5, 0.5)).toEqual([400000.25, 5000999.75])
    // Pixel in column 3, row 2: 400000.25 + 0.5 · 3 and 5000999.75 − 0.5 · 2.
    expect(gridAt(affine, 3.5, 2.5)).toEqual([400001.75, 5000998.75])
  })

  it('of a turned picture has its columns before its rows: A, D, then B, E', () => {
    const affine = sound(parseWorldFile('0.3\n0.04\n0.05\n-0.2\n1000\n2000'))
    const [x, y] = gridAt(affine, 10.5, 20.5)
    expect(x).toBeCloseTo(0.3 * 10 + 0.05 * 20 + 1000, 9)
    expect(y).toBeCloseTo(0.04 * 10 - 0.2 * 20 + 2000, 9)
  })

  it('may have decimal commas, any line ends, spaces, exponents, a byte order mark and blank lines behind', () => {
    const plain = sound(parseWorldFile(half))
    for (const text of [
      '\uFEFF0,5\r\n0\r\n0\r\n-0,5\r\n400000,25\r\n5000999,75\r\n\r\n',
      '  5.0e-1 \r0.0\r+0\r-.5\r400000.25\r5000999.75',
    ])
      expect(sound(parseWorldFile(text))).toEqual(plain)
  })

  it.each([
    ['', /has 0/],
    ['1\n0\n0\n-1\n5', /has 5/],
    ['1\n0\n0\n-1\n5\n6\n7', /has 7/],
    ['1\n0\n0\n-1\n5\nnorth', /Line 6, F \(y\).*"north"/],
    ['1\n\n0\n-1\n5\n6', /Line 2, D/],
    ['1\n0\n0\n-1\nNaN\n6', /Line 5, C/],
    ['1\n0\n0\n-1\n1e999\n6', /Line 5, C/],
    ['0x10\n0\n0\n-1\n5\n6', /Line 1, A/],
    ['1.000,5\n0\n0\n-1\n5\n6', /Line 1, A/],
    ['0\n0\n0\n-1\n5\n6', /without area/],
    ['1\n2\n2\n4\n5\n6', /without area/],
  ])('is refused with the reason: %j', (text, detail) => {
    expect(parseWorldFile(text)).toMatchObject({
      kind: 'photo',
      field: 'world file',
      detail: expect.stringMatching(detail),
    })
  })
})

describe('a picture with a world file', () => {
  it('is taken for lon/lat where its numbers fit, and says so', () => {
    const reading = sound(readWorldFile('0.00001\n0\n0\n-0.00001\n12.5\n55.7', 1000, 800, null))
    expect(reading.placement.crs.inDegrees).toBe(true)
    expect(reading.notes).toEqual([expect.stringMatching(/longitude and latitude/)])
    const photo = sound(placeByWorldFile('0.00001\n0\n0\n-0.00001\n12.5\n55.7', 1000, 800, null))
    expect(photo.source).toBe('world file')
    expect(photo.corners[0][0]).toBeCloseTo(12.499995, 9)
    expect(photo.corners[2][1]).toBeCloseTo(55.700005 - 0.008, 9)
  })

  it('asks for the grid where they do not', () => {
    for (const text of [half, '0.1\n0\n0\n-0.1\n179\n89'])
      expect(readWorldFile(text, 100, 80, null)).toMatchObject({
        kind: 'photo',
        field: 'crs',
        detail: expect.stringMatching(/EPSG code or UTM zone/),
      })
  })

  it('takes the grid that it is given, with its caution', () => {
    expect(sound(placeByWorldFile(half, 100, 80, sound(crsOfEpsg(32633)))).notes).toEqual([])
    const photo = sound(placeByWorldFile(half, 100, 80, sound(crsOfEpsg(25833))))
    expect(photo.crs).toBe('ETRS89 / UTM zone 33N')
    expect(photo.notes).toEqual([expect.stringMatching(/ETRS89 is taken for WGS 84/)])
  })

  it('is refused where the grid given does not reach its numbers', () => {
    const lost = '0.5\n0\n0\n-0.5\n400000.25\n500099900.75\n'
    for (const [text, epsg] of [
      [lost, 32633],
      [half, 4326],
    ] as const)
      expect(placeByWorldFile(text, 100, 80, sound(crsOfEpsg(epsg)))).toMatchObject({
        kind: 'photo',
        field: 'georeference',
      })
  })
})
