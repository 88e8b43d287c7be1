import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import { areaM2, distanceM } from '../../../../src/draw/measureShape.ts'
import { joinAreas } from '../../../../src/draw/ops/joinAreas.ts'
import { offsetArea, offsetLine } from '../../../../src/draw/ops/offset.ts'
import { splitArea } from '../../../../src/draw/ops/splitArea.ts'
import { problemOf } from '../../../../src/draw/problemOf.ts'
import type { Shape } from '../../../../src/draw/shape.ts'
import { footOn } from '../../../../src/draw/snap.ts'
import { middle, outlines, rectangle } from './shapes.ts'

const polygon = (...parts: (readonly Metres[])[]): Shape => ({ type: 'Polygon', parts })

describe('areas joined', () => {
  it('are the whole again where they were cut apart', () => {
    fc.assert(
      fc.property(outlines, fc.nat(11), fc.nat(11), (ring, m, n) => {
        const line = [ring[m % ring.length]!, middle(ring), ring[n % ring.length]!]
        const pieces = splitArea([ring], line)
        fc.pre(pieces.length === 2)
        const whole = joinAreas(pieces.map((parts) => ({ type: 'Polygon', parts })))
        expect(whole.type).toBe('Polygon')
        expect(Math.abs(areaM2(whole) / areaM2(polygon(ring)) - 1)).toBeLessThan(1e-9)
      }),
      { seed: 12, numRuns: 100 },
    )
  })
  it('close a gap of millimetres and leave no sliver, but stay apart over a path', () => {
    const [a, near, far] = [
      rectangle(20, 1, 0, [0, 0]),
      rectangle(20, 1, 0, [0.003, 1.004]),
      rectangle(20, 1, 0, [0, 1.4]),
    ]
    const joined = joinAreas([polygon(a), polygon(near)])
    expect(joined.type).toBe('Polygon')
    expect(joined.parts).toHaveLength(1)
    expect(areaM2(joined)).toBeCloseTo(40, 0)
    expect(joinAreas([polygon(a), polygon(far)]).type).toBe('MultiPolygon')
  })
})

describe('a parallel', () => {
  it('of a line lies exactly so far from it at every corner, on the side asked for', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 8, max: 40, noNaN: true }), fc.double({ min: -70, max: 70, noNaN: true })), {
          minLength: 1,
          maxLength: 6,
        }),
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        fc.constantFrom(1, -1),
        (sides, offM, side) => {
          let [at, way]: [Metres, number] = [[0, 0], 0]
          const line: Metres[] = [at]
          for (const [sizeM, turn] of sides) {
            way += (turn * Math.PI) / 180
            at = [at[0] + sizeM * Math.cos(way), at[1] + sizeM * Math.sin(way)]
            line.push(at)
          }
          const off = offsetLine(line, offM * side)
          fc.pre(off !== null)
          off!.slice(1).forEach((b, i) => {
            const a = off![i]!
            const [p, q] = [line[i]!, line[i + 1]!]
            const size = distanceM(p, q)
            for (const at of [a, b]) {
              const left = ((q[0] - p[0]) * (at[1] - p[1]) - (q[1] - p[1]) * (at[0] - p[0])) / size
              expect(left).toBeCloseTo(offM * side, 9)
            }
          })
        },
      ),
      { seed: 14, numRuns: 200 },
    )
  })
  it('of a line is none where a side would vanish', () => {
    expect(
      offsetLine(
        [
          [0, 0],
          [10, 0],
          [10, 1],
          [20, 1],
        ],
        0.4,
      ),
    ).not.toBeNull()
    expect(
      offsetLine(
        [
          [0, 0],
          [10, 0],
          [10, 1],
          [0, 1],
        ],
        0.6,
      ),
    ).toBeNull()
    expect(
      offsetLine(
        [
          [1, 1],
          [1, 1],
        ],
        0.6,
      ),
    ).toBeNull()
  })
  it('of an area has every corner so far from its nearest side, and its rectangle is larger by hand', () => {
    fc.assert(
      fc.property(outlines, fc.double({ min: 0.2, max: 3, noNaN: true }), fc.constantFrom(1, -1), (ring, offM, way) => {
        const shape = offsetArea(polygon(ring), offM * way)
        if (!shape) return
        expect(problemOf(shape)).toBeNull()
        for (const at of shape.parts.flat()) {
          const nearest = Math.min(...ring.map((a, i) => distanceM(at, footOn([a, ring[(i + 1) % ring.length]!], at))))
          expect(nearest).toBeGreaterThan(offM - 1e-6)
        }
      }),
      { seed: 15, numRuns: 60 },
    )
    expect(areaM2(offsetArea(polygon(rectangle(20, 1.2, 33, [50, 80])), 0.4)!)).toBeCloseTo(20.8 * 2, 6)
    expect(areaM2(offsetArea(polygon(rectangle(20, 1.2, 33, [50, 80])), -0.4)!)).toBeCloseTo(19.2 * 0.4, 6)
  })
  it('of an area that is too narrow is none, and one with a waist comes in two', () => {
    expect(offsetArea(polygon(rectangle(20, 1, 10, [0, 0])), -0.6)).toBeNull()
    const waist: Metres[] = [
      [0, 0],
      [10, 0],
      [10, 4.5],
      [20, 4.5],
      [20, 0],
      [30, 0],
      [30, 10],
      [20, 10],
      [20, 5.5],
      [10, 5.5],
      [10, 10],
      [0, 10],
    ]
    const two = offsetArea(polygon(waist), -1)!
    expect(two.type).toBe('MultiPolygon')
    expect(areaM2(two)).toBeCloseTo(128, 6)
  })
  it('makes a hole smaller as the ground about it grows', () => {
    const grown = offsetArea(polygon(rectangle(20, 20, 0, [0, 0]), rectangle(6, 6, 0, [7, 7])), 1)!
    expect(areaM2(grown)).toBeCloseTo(22 * 22 - 16, 6)
  })
})
