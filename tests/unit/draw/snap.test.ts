import fc from 'fast-check'
import type { Geometry } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { LonLat, Metres } from '../../../geo/plane/lonLat.ts'
import { edgeIndex } from '../../../src/draw/edgeIndex.ts'
import { ALL_SNAPS, atLength, footOn, hold, type Segment, SNAPS } from '../../../src/draw/snap.ts'

describe('snapping', () => {
  const edge: Segment = [
    [0, 0],
    [10, 0],
  ]
  const about = (edges: readonly Segment[], reachM: number, snaps = ALL_SNAPS) => ({ edges, far: edges, reachM, snaps })
  it('takes the corner before the edge, and neither beyond reach', () => {
    expect(hold([0.3, 0.4], about([edge], 1))).toEqual({ at: [0, 0], snapped: 'corner', guides: [] })
    expect(hold([5, 0.4], about([edge], 1))).toMatchObject({ at: [5, 0], snapped: 'edge' })
    expect(hold([5, 1.4], about([edge], 1))).toEqual({ at: [5, 1.4], snapped: null, guides: [] })
    expect(hold([5, 0], about([edge], 0)).at).toEqual([5, 0])
  })
  it('holds to a right angle and a parallel within 5°, keeping the distance along it, and names which', () => {
    const drawing = { from: [1, 1] as Metres, own: [edge] }
    const open = about([], 2)
    const held = hold([1.1, 9], open, drawing)
    expect(held.snapped).toBe('square')
    expect(held.at[0]).toBeCloseTo(1, 12)
    expect(held.at[1]).toBeCloseTo(9, 12)
    const along = hold([9, 1.2], open, drawing)
    expect(along.snapped).toBe('parallel')
    expect(along.at[1]).toBeCloseTo(1, 12)
    expect(hold([3, 9], open, drawing).snapped).toBeNull()
  })
  it('carries an edge on beyond its end, and shows from where', () => {
    const held = hold([12, 0.3], about([edge], 0.5))
    expect(held).toEqual({
      at: [12, 0],
      snapped: 'extension',
      guides: [
        {
          as: 'extension',
          line: [
            [10, 0],
            [12, 0],
          ],
          by: edge,
        },
      ],
    })
    expect(hold([40, 0.3], about([edge], 0.5)).snapped).toBeNull()
  })
  it('comes to where two lines cross, to the bit on both, and names both', () => {
    const upright: Segment = [
      [14, 3],
      [14, 9],
    ]
    const held = hold([13.8, 0.2], about([edge, upright], 0.5))
    expect(held.at[0]).toBeCloseTo(14, 12)
    expect(held.at[1]).toBeCloseTo(0, 12)
    expect(held.guides.map(({ as }) => as)).toEqual(['extension', 'extension'])
    const square = hold(
      [10.2, 8.9],
      about(
        [
          [
            [0, 9],
            [20, 9],
          ],
        ],
        0.5,
      ),
      { from: [10, 0], own: [edge] },
    )
    expect(square.guides.map(({ as }) => as)).toEqual(['edge', 'square'])
    expect(square.at).toEqual([10, 9])
  })
  it('holds to nothing that is switched off', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SNAPS),
        fc.tuple(fc.double({ min: -15, max: 25, noNaN: true }), fc.double({ min: -5, max: 15, noNaN: true })),
        (off, at) => {
          const held = hold(at, about([edge], 1, { ...ALL_SNAPS, [off]: false }), { from: [3, 5], own: [edge] })
          expect(held.snapped).not.toBe(off)
          expect(held.guides.map(({ as }) => as)).not.toContain(off)
        },
      ),
      { seed: 21, numRuns: 500 },
    )
  })
  it('lays off an exact length', () => {
    const at = atLength([2, 3], [5, 7], 25)
    expect(Math.hypot(at[0] - 2, at[1] - 3)).toBeCloseTo(25, 12)
    expect((at[1] - 3) / (at[0] - 2)).toBeCloseTo(4 / 3, 12)
  })
})

const owned = (geometries: readonly Geometry[]) => geometries.map((geometry) => ({ owner: 'it', geometry }))

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
        const index = edgeIndex(owned(geometries))
        const found = index.near(at, reach, reach)!.map((e) => JSON.stringify(e))
        expect(index.near(at, reach, reach, undefined, found.length)).toHaveLength(found.length)
        if (found.length > 0) expect(index.near(at, reach, reach, undefined, found.length - 1)).toBeNull()
        expect(index.near(at, reach, reach, new Set(['it']))).toEqual([])
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
    expect(edgeIndex(owned(beds)).near(at, 1e-6, 1e-6)!.length).toBeLessThan(200)
  })
  it('finds nothing in an empty farm', () => {
    expect(edgeIndex([]).near([0, 0], 1, 1)).toEqual([])
  })
})
