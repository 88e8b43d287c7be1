import fc from 'fast-check'
import type { Geometry } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { LonLat, Metres } from '../../../geo/plane/lonLat.ts'
import { edgeIndex } from '../../../src/draw/edgeIndex.ts'
import { atLength, footOn, type Segment, snapSquare, snapToEdges } from '../../../src/draw/snap.ts'

describe('snapping', () => {
  const edge: Segment = [
    [0, 0],
    [10, 0],
  ]
  it('takes the corner before the edge, and neither beyond reach', () => {
    expect(snapToEdges([0.3, 0.4], [edge], 1)).toEqual({ at: [0, 0], snapped: 'corner' })
    expect(snapToEdges([5, 0.4], [edge], 1)).toEqual({ at: [5, 0], snapped: 'edge' })
    expect(snapToEdges([5, 1.4], [edge], 1)).toEqual({ at: [5, 1.4], snapped: null })
    expect(snapToEdges([5, 0], [edge], 0).at).toEqual([5, 0])
  })
  it('holds to a right angle and a parallel within 5°, keeping the distance along it', () => {
    const held = snapSquare([1, 1], [1.1, 9], [[10, 0]], 2)
    expect(held.snapped).toBe('square')
    expect(held.at[0]).toBeCloseTo(1, 12)
    expect(held.at[1]).toBeCloseTo(9, 12)
    expect(snapSquare([1, 1], [9, 1.2], [[10, 0]], 2).at[1]).toBeCloseTo(1, 12)
    expect(snapSquare([1, 1], [3, 9], [[10, 0]], 2).snapped).toBeNull()
  })
  it('lays off an exact length', () => {
    const at = atLength([2, 3], [5, 7], 25)
    expect(Math.hypot(at[0] - 2, at[1] - 3)).toBeCloseTo(25, 12)
    expect((at[1] - 3) / (at[0] - 2)).toBeCloseTo(4 / 3, 12)
  })
})

describe('the index of edges', () => {
  it('finds every edge in reach that a look at all of them finds', () => {
    const place = fc.tuple(
      fc.double({ min: 10, max: 10.01, noNaN: true }),
      fc.double({ min: 50, max: 50.01, noNaN: true }),
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 60 }), place, (lines, at) => {
        const geometries = lines.map((coordinates): Geometry => ({ type: 'LineString', coordinates }))
        const reach = 0.0004
        const found = edgeIndex(geometries)
          .near(at, reach, reach)
          .map((e) => JSON.stringify(e))
        for (const [a, b] of lines) {
          const [fx, fy] = footOn([a as Metres, b as Metres], at as Metres)
          if (Math.hypot(fx - at[0], fy - at[1]) <= reach) expect(found).toContain(JSON.stringify([a, b]))
        }
        expect(found.length).toBeLessThanOrEqual(lines.length)
      }),
      { seed: 2, numRuns: 300 },
    )
  })
  it('looks at few of many', () => {
    const beds = Array.from({ length: 2000 }, (_, i): Geometry => {
      const [x, y] = [(i % 40) * 1e-3, Math.floor(i / 40) * 3e-5]
      return {
        type: 'Polygon',
        coordinates: [
          [
            [x, y],
            [x + 9e-4, y],
            [x + 9e-4, y + 1e-5],
            [x, y + 1e-5],
            [x, y],
          ],
        ],
      }
    })
    const at: LonLat = [0.02, 7e-4]
    expect(edgeIndex(beds).near(at, 1e-6, 1e-6).length).toBeLessThan(200)
  })
  it('finds nothing in an empty farm', () => {
    expect(edgeIndex([]).near([0, 0], 1, 1)).toEqual([])
  })
})
