import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { longAxis } from '../../../geo/plane/longAxis.ts'
import { clipWindow } from '../../../geo/yield/clipHalfPlane.ts'
import { cornersOf, ringsAreaM2 } from '../../../geo/yield/ring.ts'
import { lineLengthM, rowStretch } from '../../../geo/yield/rowStretch.ts'
import { seasonOf, seasonSpan } from '../../../geo/yield/season.ts'
import { SPOT_RADIUS_M, spotCircle } from '../../../geo/yield/spotCircle.ts'
import { stripWindows } from '../../../geo/yield/strip.ts'
import { rectangle, starRings } from './shapes.ts'

const PLAIN = [rectangle(-100, -100, 200, 200)]

const areaOn = (line: readonly number[], widthM: number): number =>
  stripWindows(line, widthM).reduce((sum, window) => sum + ringsAreaM2(clipWindow(PLAIN, window)), 0)

describe('season', () => {
  it('runs a year from the first of its month, and days belong to the season they fall in', () => {
    expect(seasonSpan(2025, 1)).toEqual({ from: '2025-01-01', to: '2025-12-31' })
    expect(seasonSpan(2025, 7)).toEqual({ from: '2025-07-01', to: '2026-06-30' })
    expect(seasonSpan(2023, 3)).toEqual({ from: '2023-03-01', to: '2024-02-29' })
    for (const startMonth of [1, 3, 7, 12]) {
      const { from, to } = seasonSpan(2025, startMonth)
      expect([from, to].map((on) => seasonOf(on, startMonth))).toEqual([2025, 2025])
      expect(seasonOf(seasonSpan(2024, startMonth).to, startMonth)).toBe(2024)
    }
  })
})

describe('stretch of row', () => {
  it('runs from one distance to the other, around bends', () => {
    expect(rowStretch([0, 0, 10, 0], 2, 5)).toEqual([2, 0, 5, 0])
    expect(rowStretch([0, 0, 10, 0, 10, 10], 8, 13)).toEqual([8, 0, 10, 0, 10, 3])
    expect(rowStretch([0, 0, 10, 0], 4, 99)).toEqual([4, 0, 10, 0])
    expect(rowStretch([0, 0, 10, 0], 12, 99)).toEqual([])
    expect(lineLengthM([0, 0, 3, 4, 3, 10])).toBe(11)
  })
})

describe('strip', () => {
  it('is length times width, straight or bent: a mitre takes on one side what it gives on the other', () => {
    expect(areaOn([0, 0, 20, 0], 0.4)).toBeCloseTo(8, 10)
    const turn = fc.double({ min: -1.2, max: 1.2, noNaN: true })
    fc.assert(
      fc.property(fc.array(turn, { minLength: 1, maxLength: 5 }), (turns) => {
        let [x, y, heading] = [0, 0, 0.3]
        const line = [x, y]
        for (const by of turns) {
          x += 8 * Math.cos(heading)
          y += 8 * Math.sin(heading)
          line.push(x, y)
          heading += by
        }
        expect(areaOn(line, 0.6)).toBeCloseTo(8 * 0.6 * turns.length, 8)
      }),
      { numRuns: 60, seed: 20250613 },
    )
  })

  it('takes a repeated vertex for one and a line without length for nothing', () => {
    expect(areaOn([0, 0, 0, 0, 5, 0, 5, 0], 1)).toBeCloseTo(5, 10)
    expect(stripWindows([3, 3, 3, 3], 1)).toEqual([])
    expect(areaOn([0, 0, 5, 0, 0, 0], 1)).toBeCloseTo(10, 10)
  })
})

describe('spot', () => {
  it('has the area of a circle of 1 m, and is a millimetre or two off its edge at most', () => {
    const [circle] = clipWindow(PLAIN, spotCircle(7, -3))
    expect(ringsAreaM2([circle!])).toBeCloseTo(Math.PI * SPOT_RADIUS_M ** 2, 10)
    for (let k = 0; k < circle!.length; k += 2) {
      expect(Math.abs(Math.hypot(circle![k]! - 7, circle![k + 1]! + 3) - SPOT_RADIUS_M)).toBeLessThan(0.02)
    }
  })
})

describe('long axis', () => {
  it('is that of the rectangle, whichever way it lies, pointing east or due north', () => {
    for (let deg = 0; deg < 180; deg += 15) {
      const turn = (deg * Math.PI) / 180
      const axis = longAxis(cornersOf(rectangle(200, -300, 30, 1.2, turn)))!
      expect(axis.lengthM).toBeCloseTo(30, 9)
      const east = deg <= 90 ? 1 : -1
      expect(axis.ux).toBeCloseTo(east * Math.cos(turn), 9)
      expect(axis.uy).toBeCloseTo(east * Math.sin(turn), 9)
      const middle = rectangle(200, -300, 15, 0.6, turn)
      expect(axis.startM).toBeCloseTo(axis.ux * middle[4]! + axis.uy * middle[5]! - 15, 9)
      expect(axis.middleM).toBeCloseTo(axis.ux * middle[5]! - axis.uy * middle[4]!, 9)
    }
  })

  it('is of the least rectangle: none at any bearing is smaller, and it holds every corner', () => {
    // Oracle: rectangles around the outline at every tenth of a degree.
    fc.assert(
      fc.property(starRings, ([outline]) => {
        const ring = outline!
        const axis = longAxis(cornersOf(ring))!
        const spans = (ux: number, uy: number): [number, number] => {
          const along: number[] = []
          const across: number[] = []
          for (let k = 0; k < ring.length; k += 2) {
            along.push(ux * ring[k]! + uy * ring[k + 1]!)
            across.push(ux * ring[k + 1]! - uy * ring[k]!)
          }
          return [Math.max(...along) - Math.min(...along), Math.max(...across) - Math.min(...across)]
        }
        const [lengthM, widthM] = spans(axis.ux, axis.uy)
        expect(axis.lengthM).toBeCloseTo(lengthM, 8)
        expect(lengthM).toBeGreaterThanOrEqual(widthM - 1e-9)
        for (let tenth = 0; tenth < 900; tenth += 1) {
          const turn = (tenth * Math.PI) / 1800
          const [a, b] = spans(Math.cos(turn), Math.sin(turn))
          expect(a * b).toBeGreaterThanOrEqual(lengthM * widthM * (1 - 1e-9))
        }
      }),
      { numRuns: 25, seed: 20250614 },
    )
  })
})
