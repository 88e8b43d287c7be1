import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import {
  bestTurn,
  type Frame,
  spreadOf,
  standardScale,
  tightestScale,
  toPaper,
  toPlane,
} from '../../../src/print/frame.ts'
import { mapGrid } from '../../../src/print/page/mapGrid.ts'

const BOX = { xMm: 10, yMm: 10, wideMm: 277, highMm: 150 }
const metres = fc.tuple(
  fc.double({ min: -5000, max: 5000, noNaN: true }),
  fc.double({ min: -5000, max: 5000, noNaN: true }),
)
const frames: fc.Arbitrary<Frame> = fc.record({
  box: fc.constant(BOX),
  centre: metres,
  scale: fc.integer({ min: 10, max: 100_000 }),
  upDeg: fc.double({ min: -360, max: 360, noNaN: true }),
})

describe('the plane on paper', () => {
  it('keeps every length at its scale, and comes back to where it was', () => {
    // A similarity: lengths times 1000/N, by definition of a scale of 1:N (M).
    fc.assert(
      fc.property(frames, metres, metres, (frame, a, b) => {
        const [p, q] = [toPaper(frame)(a), toPaper(frame)(b)]
        const paperMm = Math.hypot(p[0] - q[0], p[1] - q[1])
        const groundMm = (Math.hypot(a[0] - b[0], a[1] - b[1]) * 1000) / frame.scale
        expect(Math.abs(paperMm - groundMm)).toBeLessThan(1e-7 * Math.max(1, groundMm))
        const back = toPlane(frame)(p)
        expect(Math.hypot(back[0] - a[0], back[1] - a[1])).toBeLessThan(1e-7)
      }),
      { seed: 7 },
    )
  })

  it('puts up what is to be up: with east up, what lies east lies above, and north to the left', () => {
    const put = toPaper({ box: BOX, centre: [0, 0], scale: 1000, upDeg: 90 })
    const [x0, y0] = put([0, 0])
    expect(put([10, 0])[1]).toBeCloseTo(y0 - 10, 9)
    expect(put([0, 10])[0]).toBeCloseTo(x0 - 10, 9)
  })

  it('takes the largest scale of a rule at which all fits, and not the next', () => {
    fc.assert(
      fc.property(
        fc.array(metres, { minLength: 2, maxLength: 9 }),
        fc.constantFrom('metric', 'us'),
        (places, units) => {
          const spread = spreadOf(places, 30)!
          const tightest = tightestScale(spread, BOX, 5)
          const scale = standardScale(tightest, units)
          const put = toPaper({ box: BOX, centre: spread.centre, scale, upDeg: 30 })
          for (const place of places) {
            const [x, y] = put(place)
            expect(x).toBeGreaterThan(BOX.xMm + 5 - 1e-6)
            expect(x).toBeLessThan(BOX.xMm + BOX.wideMm - 5 + 1e-6)
            expect(y).toBeGreaterThan(BOX.yMm + 5 - 1e-6)
            expect(y).toBeLessThan(BOX.yMm + BOX.highMm - 5 + 1e-6)
          }
          expect(scale).toBeGreaterThanOrEqual(tightest * (1 - 1e-9))
        },
      ),
      { seed: 11 },
    )
    expect(standardScale(501, 'metric')).toBe(750)
    expect(standardScale(500, 'metric')).toBe(500)
    // An engineer's rule: 50 feet to the inch is 1:600.
    expect(standardScale(481, 'us')).toBe(600)
  })

  it('turns a field that lies along the paper’s short side, and leaves alone one that fits', () => {
    const strip = (deg: number): Metres[] => {
      const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)]
      return [-100, 100].flatMap((a) => [-10, 10].map((b): Metres => [a * s + b * c, a * c - b * s]))
    }
    expect(Math.abs(bestTurn(strip(0), 0, BOX, 5))).toBeCloseTo(90, 6)
    expect(bestTurn(strip(90), 90, BOX, 5)).toBe(0)
    // Lying at 40°, its long side comes level by the smaller turn: 40 − 90 = −50°.
    expect(bestTurn(strip(40), 40, BOX, 5)).toBeCloseTo(-50, 6)
  })
})

describe('a map over several pages', () => {
  it('shows every place of the extent on some page, neighbours sharing ground', () => {
    fc.assert(
      fc.property(
        metres,
        fc.double({ min: 5, max: 900, noNaN: true }),
        fc.double({ min: 5, max: 900, noNaN: true }),
        (centre, acrossM, alongM) => {
          const spread = { centre, acrossM, alongM, upDeg: 25 }
          const grid = mapGrid(spread, BOX, 1000, 5)
          const whole = toPlane({ box: BOX, centre, scale: 1000, upDeg: 25 })
          for (const u of [-0.5, -0.23, 0, 0.31, 0.5])
            for (const v of [-0.5, -0.11, 0.2, 0.5]) {
              const place = whole([BOX.xMm + BOX.wideMm / 2 + u * acrossM, BOX.yMm + BOX.highMm / 2 + v * alongM])
              const seen = grid.some(({ frame }) => {
                const [x, y] = toPaper(frame)(place)
                return x >= BOX.xMm && x <= BOX.xMm + BOX.wideMm && y >= BOX.yMm && y <= BOX.yMm + BOX.highMm
              })
              expect(seen).toBe(true)
            }
        },
      ),
      { seed: 3, numRuns: 40 },
    )
  })
})
