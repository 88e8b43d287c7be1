import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import { areaM2, distanceM, lineLengthM } from '../../../../src/draw/measureShape.ts'
import { shareInside } from '../../../../src/draw/ops/shareInside.ts'
import { splitArea } from '../../../../src/draw/ops/splitArea.ts'
import { crossingsM, cutLineAt } from '../../../../src/draw/ops/splitLine.ts'
import { problemOf } from '../../../../src/draw/problemOf.ts'
import type { Corners } from '../../../../src/draw/shape.ts'
import { outlines, places, rectangle } from './shapes.ts'

const area = (parts: readonly Corners[]) => areaM2({ type: 'Polygon', parts })
const sum = (pieces: readonly (readonly Corners[])[]) => pieces.reduce((all, piece) => all + area(piece), 0)
const square = rectangle(10, 10, 0, [0, 0])

describe('an area cut along a line', () => {
  it('gives pieces that are sound and sum to the whole, to a part in 10⁹', () => {
    fc.assert(
      fc.property(
        outlines,
        fc.array(fc.tuple(fc.nat(11), fc.double({ min: 0, max: 1, noNaN: true })), { minLength: 2, maxLength: 5 }),
        (ring, way) => {
          // A line from side to side of the outline and on, crossing it as it will.
          const line = way.map(([n, t]): Metres => {
            const [a, b] = [ring[n % ring.length]!, ring[(n + 1) % ring.length]!]
            return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
          })
          const pieces = splitArea([ring], line)
          expect(Math.abs(sum(pieces) / area([ring]) - 1)).toBeLessThan(1e-9)
          for (const parts of pieces) expect(problemOf({ type: 'Polygon', parts })).toBeNull()
        },
      ),
      { seed: 8, numRuns: 400 },
    )
  })
  it('is halved by its own diagonal, and by a line beyond both sides', () => {
    for (const line of [
      [
        [0, 0],
        [10, 10],
      ],
      [
        [-3, 5],
        [13, 5],
      ],
    ] as Metres[][])
      expect(splitArea([square], line).map(area)).toEqual([50, 50])
  })
  it('keeps holes in the piece that holds them, and lets a line through a hole cut both rings', () => {
    const hole = rectangle(2, 2, 0, [4, 4])
    const aside = splitArea(
      [square, hole],
      [
        [2, -1],
        [2, 11],
      ],
    )
    expect(aside.map((parts) => [parts.length, area(parts)])).toEqual([
      [2, 76],
      [1, 20],
    ])
    const through = splitArea(
      [square, hole],
      [
        [5, -1],
        [5, 11],
      ],
    )
    expect(through.map((parts) => [parts.length, area(parts)])).toEqual([
      [1, 48],
      [1, 48],
    ])
  })
  it('gives as many pieces as the line leaves: a line that goes in and out makes four, one that crosses itself five', () => {
    const zigzag: Metres[] = [
      [2, -1],
      [2, 11],
      [5, 11],
      [5, -1],
      [8, -1],
      [8, 11],
    ]
    expect(splitArea([square], zigzag).map(area).sort()).toEqual([20, 20, 30, 30])
    const loop: Metres[] = [
      [-1, 3],
      [7, 3],
      [7, 7],
      [3, 7],
      [3, -1],
    ]
    const pieces = splitArea([square], loop).map(area)
    expect(pieces).toHaveLength(3)
    expect(pieces.reduce((a, b) => a + b)).toBeCloseTo(100, 9)
  })
  it('is left whole by a line that ends within, lies along a side, or misses', () => {
    for (const line of [
      [
        [-1, 5],
        [6, 5],
      ],
      [
        [0, 0],
        [10, 0],
      ],
      [
        [-5, 20],
        [15, 20],
      ],
      [
        [3, 3],
        [6, 6],
      ],
    ] as Metres[][])
      expect(splitArea([square], line).map(area)).toEqual([100])
  })
})

describe('a line cut along its length', () => {
  it('gives pieces that follow on and sum to the whole', () => {
    fc.assert(
      fc.property(
        fc.array(places, { minLength: 2, maxLength: 8 }),
        fc.array(fc.double({ min: -0.2, max: 1.2, noNaN: true }), { maxLength: 5 }),
        (line, at) => {
          const whole = lineLengthM(line)
          fc.pre(line.slice(1).every((p, i) => distanceM(p, line[i]!) > 0.01))
          const pieces = cutLineAt(
            line,
            at.map((share) => share * whole),
          )
          const sum = pieces.reduce((all, { corners }) => all + lineLengthM(corners), 0)
          expect(Math.abs(sum / whole - 1)).toBeLessThan(1e-9)
          pieces.forEach(({ corners, fromM, toM }, i) => {
            expect(lineLengthM(corners)).toBeCloseTo(toM - fromM, 6)
            if (i > 0) expect(corners[0]).toEqual(pieces[i - 1]!.corners.at(-1))
          })
        },
      ),
      { seed: 4, numRuns: 200 },
    )
  })
  it('is crossed where it is crossed, and lies within an area by so much of its length', () => {
    const line: Metres[] = [
      [0, 0],
      [10, 0],
      [10, 10],
    ]
    expect(
      crossingsM(line, [
        [4, -1],
        [4, 1],
        [11, 6],
      ]),
    ).toEqual([4, expect.closeTo(15.2857142857, 9)])
    expect(
      shareInside(
        [
          [-5, 5],
          [15, 5],
        ],
        [square],
      ),
    ).toBeCloseTo(0.5, 12)
    expect(
      shareInside(
        [
          [-5, 5],
          [15, 5],
        ],
        [square, rectangle(2, 2, 0, [4, 4])],
      ),
    ).toBeCloseTo(0.4, 12)
    expect(
      shareInside(
        [
          [20, 5],
          [25, 5],
        ],
        [square],
      ),
    ).toBe(0)
  })
})
