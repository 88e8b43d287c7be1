import fc from 'fast-check'
import { expect, it } from 'vitest'
import { circleOverlap } from '../../../geo/plane/circleOverlap.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'

const square: Metres[] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
  [0, 0],
]

// Plane geometry, worked by hand.
it('takes the whole circle, the whole ring, a half and a quarter', () => {
  expect(circleOverlap(square, [5, 5], 2)).toBeCloseTo(Math.PI * 4, 10)
  expect(circleOverlap(square, [5, 5], 50)).toBeCloseTo(100, 9)
  expect(circleOverlap(square, [5, 0], 3)).toBeCloseTo((Math.PI * 9) / 2, 10)
  expect(circleOverlap(square, [0, 0], 4)).toBeCloseTo((Math.PI * 16) / 4, 10)
  expect(circleOverlap(square, [20, 20], 3)).toBeCloseTo(0, 10)
  expect(circleOverlap([...square].reverse(), [5, 5], 2)).toBeCloseTo(Math.PI * 4, 10)
})

// A circular segment of height h: r² acos(1 − h/r) − (r − h) √(2rh − h²) (mensuration handbooks).
it('takes a segment', () => {
  const [r, h] = [5, 1.5]
  const segment = r * r * Math.acos(1 - h / r) - (r - h) * Math.sqrt(2 * r * h - h * h)
  expect(
    circleOverlap(
      [
        [-50, 0],
        [50, 0],
        [50, 50],
        [-50, 50],
        [-50, 0],
      ],
      [0, -(r - h)],
      r,
    ),
  ).toBeCloseTo(segment, 10)
})

it('agrees with counting points in a fine grid', () => {
  const at = fc.double({ min: -3, max: 13, noNaN: true })
  fc.assert(
    fc.property(at, at, fc.double({ min: 0.5, max: 8, noNaN: true }), (x, y, r) => {
      const step = 0.05
      let inside = 0
      for (let px = step / 2; px < 10; px += step)
        for (let py = step / 2; py < 10; py += step) if ((px - x) ** 2 + (py - y) ** 2 < r * r) inside++
      expect(Math.abs(circleOverlap(square, [x, y], r) - inside * step * step)).toBeLessThan(0.6)
    }),
    { seed: 11, numRuns: 60 },
  )
})
