import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { benjaminiHochberg } from '../../../geo/yield/benjaminiHochberg.ts'
import { geary } from '../../../geo/yield/geary.ts'
import { giStar, gOfSet, spreadOf } from '../../../geo/yield/giStar.ts'
import { moran } from '../../../geo/yield/moran.ts'
import { neighboursWithin } from '../../../geo/yield/pointGrid.ts'

const place = fc.record({
  x: fc.double({ min: -60, max: 60, noNaN: true }),
  y: fc.double({ min: -60, max: 60, noNaN: true }),
  value: fc.double({ min: 0, max: 3, noNaN: true }),
})
const places = fc.array(place, { minLength: 5, maxLength: 80 })

describe('Gi*', () => {
  it('is what the formula gives over all pairs, with a full weight matrix', () => {
    // Oracle: z = (Σ wᵢⱼxⱼ − X̄Wᵢ) / (S √((n Σwᵢⱼ² − Wᵢ²)/(n − 1))), Ord & Getis 1995, written out over every pair.
    fc.assert(
      fc.property(places, fc.double({ min: 1, max: 40, noNaN: true }), (all, bandM) => {
        const xs = all.map((p) => p.x)
        const ys = all.map((p) => p.y)
        const values = all.map((p) => p.value)
        const n = all.length
        const mean = values.reduce((t, v) => t + v, 0) / n
        const s = Math.sqrt(values.reduce((t, v) => t + v * v, 0) / n - mean * mean)
        if (!(s > 1e-3)) return
        const z = giStar(values, neighboursWithin(xs, ys, bandM))
        all.forEach((here, i) => {
          const w: number[] = all.map((there) => (Math.hypot(here.x - there.x, here.y - there.y) <= bandM ? 1 : 0))
          const w1 = w.reduce((t, v) => t + v, 0)
          const w2 = w.reduce((t, v) => t + v * v, 0)
          if (w1 === n) {
            expect(z[i]).toBeNull()
            return
          }
          const lag = w.reduce((t, v, j) => t + v * values[j]!, 0)
          const wanted = (lag - mean * w1) / (s * Math.sqrt((n * w2 - w1 * w1) / (n - 1)))
          expect(Math.abs(z[i]! - wanted)).toBeLessThan(1e-8 * Math.max(1, Math.abs(wanted)))
        })
      }),
      { numRuns: 100, seed: 20250619 },
    )
  })

  it('can’t be told without spread or of everything at once', () => {
    expect(giStar([0.3, 0.3, 0.3], [[1], [0], []])).toEqual([null, null, null])
    expect(gOfSet([1, 2, 3], [0, 1, 2], spreadOf([1, 2, 3]))).toBeNull()
    expect(gOfSet([1, 2, 3], [], spreadOf([1, 2, 3]))).toBeNull()
  })

  it('of a set of all but one is the other way round of that one', () => {
    const values = [1, 4, 2, 7]
    const spread = spreadOf(values)
    expect(gOfSet(values, [0, 1, 2], spread)).toBeCloseTo(-gOfSet(values, [3], spread)!, 12)
  })
})

describe('Benjamini–Hochberg', () => {
  it('rejects at every level just what the step-up rule rejects', () => {
    // Oracle: the rule as written: the greatest k with p₍ₖ₎ ≤ k·α/m, and all up to it (Benjamini & Hochberg 1995).
    const level = fc.double({ min: 0.001, max: 0.5, noNaN: true })
    const ps = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 })
    fc.assert(
      fc.property(ps, level, (p, alpha) => {
        const sorted = [...p].sort((a, b) => a - b)
        const last = sorted.findLastIndex((one, k) => one * p.length <= (k + 1) * alpha)
        const q = benjaminiHochberg(p)
        p.forEach((one, k) => {
          expect(q[k]! <= alpha * (1 + 1e-12)).toBe(last >= 0 && one <= sorted[last]! * (1 + 1e-12))
        })
      }),
      { numRuns: 300, seed: 20250620 },
    )
  })

  it('of nothing is nothing', () => {
    expect(benjaminiHochberg([])).toEqual([])
  })
})

describe('Moran’s I and Geary’s C', () => {
  it('tell a chessboard from a slope', () => {
    const xs = Array.from({ length: 64 }, (_, k) => k % 8)
    const ys = Array.from({ length: 64 }, (_, k) => Math.floor(k / 8))
    const rook = neighboursWithin(xs, ys, 1)
    const chessboard = xs.map((x, k) => (x + ys[k]!) % 2)
    const slope = xs.map((x, k) => x + ys[k]!)
    expect(moran(chessboard, rook)?.i).toBeCloseTo(-1, 12)
    expect(geary(chessboard, rook)).toBeCloseTo((2 * 63) / 64, 12)
    expect(moran(slope, rook)!.i).toBeGreaterThan(0.7)
    expect(moran(slope, rook)!.p).toBeLessThan(1e-10)
    expect(geary(slope, rook)!).toBeLessThan(0.2)
  })

  it('have nothing to tell of values without spread, and refuse a place without neighbours', () => {
    const ring = [
      [1, 3],
      [0, 2],
      [1, 3],
      [0, 2],
    ]
    expect(moran([2, 2, 2, 2], ring)).toBeNull()
    expect(geary([2, 2, 2, 2], ring)).toBeNull()
    expect(() => moran([1, 2, 3, 4], [[1], [0], [], []])).toThrow('place 2 has no neighbour')
    expect(() => geary([1, 2, 3, 4], [[1], [0], [], []])).toThrow('place 2 has no neighbour')
  })
})
