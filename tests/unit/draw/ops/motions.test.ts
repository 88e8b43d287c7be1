import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import { areaM2, distanceM, measureShape } from '../../../../src/draw/measureShape.ts'
import { alignTo } from '../../../../src/draw/ops/alignTo.ts'
import { alongside } from '../../../../src/draw/ops/alongside.ts'
import { carry } from '../../../../src/draw/ops/carry.ts'
import { motion } from '../../../../src/draw/ops/moved.ts'
import { isRightAngled, moveRightAngled } from '../../../../src/draw/ops/rightAngled.ts'
import { toArea } from '../../../../src/draw/ops/toArea.ts'
import type { Shape } from '../../../../src/draw/shape.ts'
import { footOn } from '../../../../src/draw/snap.ts'
import { outlines, places, rectangle } from './shapes.ts'

const degrees = fc.double({ min: -720, max: 720, noNaN: true })
const strips = fc.record({
  lengthM: fc.double({ min: 4, max: 80, noNaN: true }),
  widthM: fc.double({ min: 0.5, max: 3, noNaN: true }),
  deg: fc.double({ min: -180, max: 180, noNaN: true }),
  at: places,
})

describe('a motion', () => {
  it('turned there and back brings every corner home, and keeps the area and the sides', () => {
    fc.assert(
      fc.property(outlines, places, degrees, (ring, about, turnDeg) => {
        const there = ring.map(motion({ about, turnDeg, by: [0, 0] }))
        const back = there.map(motion({ about, turnDeg: -turnDeg, by: [0, 0] }))
        for (const [i, p] of back.entries()) expect(distanceM(p, ring[i]!)).toBeLessThan(1e-8)
        const area = (of: typeof ring) => areaM2({ type: 'Polygon', parts: [of] })
        expect(Math.abs(area(there) / area(ring) - 1)).toBeLessThan(1e-9)
      }),
      { seed: 2, numRuns: 200 },
    )
  })
  it('turns clockwise as bearings are told: a quarter turn brings north to east', () => {
    const [x, y] = motion({ about: [1, 1], turnDeg: 90, by: [0, 0] })([1, 5])
    expect(x).toBeCloseTo(5, 12)
    expect(y).toBeCloseTo(1, 12)
  })
})

describe('copies alongside', () => {
  it('stand apart by exactly the path between, to the right of the bearing or the left', () => {
    fc.assert(
      fc.property(
        strips,
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.constantFrom(1 as const, -1 as const),
        ({ lengthM, widthM, deg, at }, betweenM, side) => {
          const ring = rectangle(lengthM, widthM, deg, at)
          const bearing = (measureShape({ type: 'Polygon', parts: [ring] }, true).bearingDeg! * Math.PI) / 180
          const [first, second] = alongside(ring, 2, { betweenM }, side)
          expect(Math.hypot(first![0], first![1])).toBeCloseTo(widthM + betweenM, 6)
          expect(second![0]).toBeCloseTo(first![0] * 2, 9)
          // Right of the bearing: the bearing and a quarter turn clockwise.
          if (lengthM > widthM * 1.2)
            expect((first![0] * Math.cos(bearing) - first![1] * Math.sin(bearing)) * side).toBeGreaterThan(0)
        },
      ),
      { seed: 6, numRuns: 200 },
    )
  })
})

describe('alignment', () => {
  it('makes a bed parallel to a side, the gap exact, the end level', () => {
    fc.assert(
      fc.property(
        strips,
        places,
        degrees,
        fc.double({ min: 0, max: 4, noNaN: true }),
        ({ lengthM, widthM, deg, at }, from, way, gapM) => {
          fc.pre(lengthM > widthM * 1.2)
          const to: Metres = [from[0] + 30 * Math.cos(way), from[1] + 30 * Math.sin(way)]
          const ring = rectangle(lengthM, widthM, deg, at)
          const moved = ring.map(motion(alignTo(ring, [from, to], { gapM, endsLevel: true })!))
          const [ux, uy] = [(to[0] - from[0]) / 30, (to[1] - from[1]) / 30]
          const aside = moved.map(([x, y]) => Math.abs((y - from[1]) * ux - (x - from[0]) * uy))
          expect(Math.min(...aside)).toBeCloseTo(gapM, 6)
          expect(Math.max(...aside)).toBeCloseTo(gapM + widthM, 6)
          const along = moved.map(([x, y]) => (x - from[0]) * ux + (y - from[1]) * uy)
          expect(Math.min(Math.abs(Math.min(...along)), Math.abs(Math.max(...along) - 30))).toBeLessThan(1e-6)
        },
      ),
      { seed: 9, numRuns: 200 },
    )
  })
  it('turns no further than a quarter, and by nothing where it is parallel already', () => {
    const ring = rectangle(20, 1, 30, [5, 5])
    expect(
      alignTo(
        ring,
        [
          [0, 0],
          [100, 0],
        ],
        { gapM: null, endsLevel: false },
      )!.turnDeg,
    ).toBeCloseTo(30, 9)
    const side = [ring[1]!, ring[0]!] as const
    expect(alignTo(ring, side, { gapM: null, endsLevel: false })!.turnDeg).toBeCloseTo(0, 9)
    expect(alignTo([[1, 1]], side, { gapM: 1, endsLevel: true })).toBeNull()
  })
})

describe('what lies in a bed', () => {
  it('goes with it as it lay where the bed is moved and turned', () => {
    fc.assert(
      fc.property(outlines, places, degrees, places, (ring, inside, turnDeg, by) => {
        const to = motion({ about: ring[0]!, turnDeg, by })
        expect(distanceM(carry(ring, ring.map(to))(inside), to(inside))).toBeLessThan(1e-3)
      }),
      { seed: 3, numRuns: 200 },
    )
  })
  it('stays on the edges and ends of the bed where that is made longer, wider, or turned past north', () => {
    fc.assert(
      fc.property(strips, strips, fc.double({ min: 0, max: 1, noNaN: true }), (from, to, share) => {
        fc.pre(from.lengthM > from.widthM * 1.2 && to.lengthM > to.widthM * 1.2)
        const [a, b] = [
          rectangle(from.lengthM, from.widthM, from.deg, from.at),
          rectangle(to.lengthM, to.widthM, to.deg, to.at),
        ]
        const put = carry(a, b)
        const mid = (p: Metres, q: Metres): Metres => [p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]
        // A place on an edge comes to an edge: the long edges stay long ones, whichever end is which.
        const edge = put(mid(a[0]!, a[1]!))
        const long = [distanceM(edge, footOn([b[0]!, b[1]!], edge)), distanceM(edge, footOn([b[2]!, b[3]!], edge))]
        expect(Math.min(...long)).toBeLessThan(1e-6)
        const end = put(mid(a[1]!, a[2]!))
        expect(
          Math.min(distanceM(end, footOn([b[1]!, b[2]!], end)), distanceM(end, footOn([b[3]!, b[0]!], end))),
        ).toBeLessThan(1e-6)
      }),
      { seed: 5, numRuns: 200 },
    )
  })
  it('stays where it is between the ends, and keeps its distance from an end that it reaches to', () => {
    // A bed of 20 m shortened to 17 m at its far end, by hand.
    const put = carry(rectangle(20, 1, 0, [0, 0]), rectangle(17, 1, 0, [0, 0]))
    for (const [at, to] of [
      [0.4, 0.4],
      [19.8, 16.8],
      [9, 9],
      [18, 16],
    ] as const) {
      expect(put([at, 0.25])[0]).toBeCloseTo(to, 9)
      expect(put([at, 0.25])[1]).toBeCloseTo(0.25, 9)
    }
    // Moved by 30 m and lengthened at its near end: what lies between goes with the end that moved less.
    const far = carry(rectangle(20, 1, 0, [0, 0]), rectangle(24, 2, 0, [26, 0]))
    expect(far([9, 0.25])[0]).toBeCloseTo(35, 9)
    expect(far([9, 0.25])[1]).toBeCloseTo(0.5, 9)
    expect(far([19.8, 0.25])[0]).toBeCloseTo(49.8, 9)
  })
  it('keeps its order along the bed, however the bed is reshaped', () => {
    fc.assert(
      fc.property(
        strips,
        strips,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (from, to, p, q) => {
          fc.pre(from.lengthM > from.widthM * 1.2 && to.lengthM > to.widthM * 1.2)
          const [a, b] = [
            rectangle(from.lengthM, from.widthM, from.deg, from.at),
            rectangle(to.lengthM, to.widthM, to.deg, to.at),
          ]
          const put = carry(a, b)
          const along = (share: number): Metres => [
            a[0]![0] + (a[1]![0] - a[0]![0]) * share,
            a[0]![1] + (a[1]![1] - a[0]![1]) * share,
          ]
          const first = put(a[0]!)
          const [near, far] = [Math.min(p, q), Math.max(p, q)].map((share) => distanceM(first, put(along(share))))
          expect(far! - near!).toBeGreaterThan(-1e-6)
          expect(far!).toBeLessThan(to.lengthM + 1e-6)
        },
      ),
      { seed: 16, numRuns: 300 },
    )
  })
})

describe('a bed that keeps its right angles', () => {
  it('has them still when a corner or a side is brought anywhere, and the corner opposite stays', () => {
    fc.assert(
      fc.property(
        strips,
        fc.nat(3),
        fc.boolean(),
        fc.tuple(fc.double({ min: -30, max: 30, noNaN: true }), fc.double({ min: -30, max: 30, noNaN: true })),
        ({ lengthM, widthM, deg, at }, n, corner, by) => {
          const ring = rectangle(lengthM, widthM, deg, at)
          const shape: Shape = { type: 'Polygon', parts: [ring] }
          expect(isRightAngled(shape)).toBe(true)
          const to: Metres = [ring[n]![0] + by[0], ring[n]![1] + by[1]]
          const moved = moveRightAngled(
            shape,
            corner ? { at: 'corner', part: 0, corner: n } : { at: 'middle', part: 0, after: n },
            to,
          )
          const now = moved.parts[0]!
          fc.pre(now.every((p, i) => distanceM(p, now[(i + 1) % 4]!) > 0.05))
          now.forEach((p, i) => {
            const [a, b] = [now[(i + 3) % 4]!, now[(i + 1) % 4]!]
            const dot = (a[0] - p[0]) * (b[0] - p[0]) + (a[1] - p[1]) * (b[1] - p[1])
            expect(Math.abs(dot) / (distanceM(a, p) * distanceM(b, p))).toBeLessThan(1e-6)
          })
          expect(now[(n + 2) % 4]).toEqual(ring[(n + 2) % 4])
          if (corner) expect(now[n]).toEqual(to)
        },
      ),
      { seed: 7, numRuns: 300 },
    )
  })
  it('is not one that leans, or has five corners or a hole', () => {
    const ring = rectangle(10, 2, 20, [0, 0])
    expect(isRightAngled({ type: 'Polygon', parts: [ring.with(2, [ring[2]![0] + 0.2, ring[2]![1]])] })).toBe(false)
    expect(isRightAngled({ type: 'Polygon', parts: [[...ring, [-1, 1]]] })).toBe(false)
    expect(isRightAngled({ type: 'Polygon', parts: [ring, ring] })).toBe(false)
  })
})

it('a corner is put where the ring encloses exactly the area that was typed', () => {
  fc.assert(
    fc.property(outlines, places, fc.double({ min: 1, max: 5000, noNaN: true }), (ring, toward, areaTyped) => {
      const at = toArea(ring, toward, areaTyped)
      if (!at) return
      const told = areaM2({ type: 'Polygon', parts: [[...ring, at]] })
      expect(Math.abs(told / areaTyped - 1)).toBeLessThan(1e-6)
    }),
    { seed: 1, numRuns: 200 },
  )
  // By hand: from (0,0)–(10,0) straight up, a triangle of 50 m² is 10 m high.
  expect(
    toArea(
      [
        [0, 0],
        [10, 0],
      ],
      [10, 3],
      50,
    ),
  ).toEqual([10, 10])
  expect(
    toArea(
      [
        [0, 0],
        [10, 0],
      ],
      [20, 0],
      50,
    ),
  ).toBeNull()
})
