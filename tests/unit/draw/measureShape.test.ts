import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { measureShape } from '../../../src/draw/measureShape.ts'
import { geometryOf, type Shape, shapeOf, twiceArea } from '../../../src/draw/shape.ts'

const turn = ([x, y]: Metres, deg: number, at: Metres): Metres => {
  const a = (deg * Math.PI) / 180
  return [at[0] + x * Math.cos(a) - y * Math.sin(a), at[1] + x * Math.sin(a) + y * Math.cos(a)]
}
const strip = (lengthM: number, widthM: number, deg: number, at: Metres): Metres[] =>
  [
    [0, 0],
    [lengthM, 0],
    [lengthM, widthM],
    [0, widthM],
  ].map(([x, y]) => turn([x!, y!], deg, at))

const beds = fc.record({
  lengthM: fc.double({ min: 4, max: 120, noNaN: true }),
  widthM: fc.double({ min: 0.4, max: 3.5, noNaN: true }),
  deg: fc.double({ min: -180, max: 180, noNaN: true }),
  east: fc.double({ min: -4000, max: 4000, noNaN: true }),
  north: fc.double({ min: -4000, max: 4000, noNaN: true }),
})

describe('measures of a bed', () => {
  it('are its length, width, area and bearing, wherever it lies and however it is turned', () => {
    fc.assert(
      fc.property(beds, ({ lengthM, widthM, deg, east, north }) => {
        const told = measureShape({ type: 'Polygon', parts: [strip(lengthM, widthM, deg, [east, north])] }, true)
        expect(Math.abs(told.areaM2! / (lengthM * widthM) - 1)).toBeLessThan(1e-9)
        expect(Math.abs(told.lengthM! / lengthM - 1)).toBeLessThan(1e-9)
        expect(Math.abs(told.widthM! / widthM - 1)).toBeLessThan(1e-9)
        const off = Math.abs((((told.bearingDeg! - (90 - deg)) % 180) + 180) % 180)
        expect(Math.min(off, 180 - off)).toBeLessThan(1e-6)
        expect(told.bearingDeg!).toBeGreaterThanOrEqual(0)
        expect(told.bearingDeg!).toBeLessThan(180)
      }),
      { seed: 11, numRuns: 300 },
    )
  })
  it('take the least rectangle about an uneven outline: no other direction gives a smaller', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true })),
          {
            minLength: 3,
            maxLength: 9,
          },
        ),
        (corners) => {
          const told = longAxis(corners)
          if (!told) return
          for (let deg = 0; deg < 90; deg += 0.5) {
            const turned = corners.map((p) => turn(p, deg, [0, 0]))
            const [xs, ys] = [turned.map((p) => p[0]), turned.map((p) => p[1])]
            const about = (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys))
            expect(told.lengthM * told.acrossM).toBeLessThanOrEqual(about * (1 + 1e-9))
          }
        },
      ),
      { seed: 5, numRuns: 100 },
    )
  })
  it('has no rectangle about corners on one line', () => {
    expect(
      longAxis([
        [0, 0],
        [1, 1],
        [2, 2],
      ]),
    ).toBeNull()
  })
})

describe('measures of other shapes', () => {
  it('take holes off the area', () => {
    const shape: Shape = { type: 'Polygon', parts: [strip(10, 10, 0, [0, 0]), strip(2, 3, 20, [4, 4])] }
    expect(measureShape(shape, false).areaM2).toBeCloseTo(94, 9)
  })
  it('add up polygons', () => {
    const shape: Shape = {
      type: 'MultiPolygon',
      parts: [strip(10, 10, 0, [0, 0]), strip(2, 3, 0, [4, 4]), strip(5, 5, 45, [30, 0])],
      rings: [2, 1],
    }
    expect(measureShape(shape, false).areaM2).toBeCloseTo(119, 9)
  })
  it('follow a line round its bends, 3-4-5', () => {
    const told = measureShape(
      {
        type: 'LineString',
        parts: [
          [
            [0, 0],
            [3, 4],
            [3, 9],
          ],
        ],
      },
      false,
    )
    expect(told.lengthM).toBeCloseTo(10, 12)
    expect(told.bearingDeg).toBeCloseTo((Math.atan2(3, 9) * 180) / Math.PI, 9)
  })
})

describe('geometry handed on', () => {
  const plane = planeAbout([179.9999, -16.5])
  it('is closed, right-handed (RFC 7946 3.1.6), and within ±180° across the meridian', () => {
    const clockwise = strip(60, 40, 0, [0, 0]).reverse()
    const hole = strip(5, 5, 0, [20, 20])
    const geometry = geometryOf({ type: 'Polygon', parts: [clockwise, hole] }, plane)
    if (geometry.type !== 'Polygon') throw new Error(geometry.type)
    for (const ring of geometry.coordinates) {
      expect(ring[0]).toEqual(ring.at(-1))
      for (const [lon] of ring) expect(Math.abs(lon!)).toBeLessThanOrEqual(180)
    }
    const [outer, inner] = shapeOf(geometry, plane).parts
    expect(twiceArea(outer!)).toBeGreaterThan(0)
    expect(twiceArea(inner!)).toBeLessThan(0)
  })
  it('measures the same when it is read back, to a part in 10⁹', () => {
    fc.assert(
      fc.property(beds, ({ lengthM, widthM, deg, east, north }) => {
        const shape: Shape = { type: 'Polygon', parts: [strip(lengthM, widthM, deg, [east, north])] }
        const drawn = measureShape(shape, true)
        const kept = measureShape(shapeOf(geometryOf(shape, plane), plane), true)
        expect(Math.abs(kept.lengthM! / drawn.lengthM! - 1)).toBeLessThan(2e-9)
        expect(Math.abs(kept.areaM2! - drawn.areaM2!)).toBeLessThan(4e-9 * (lengthM + widthM))
      }),
      { seed: 3, numRuns: 200 },
    )
  })
})
