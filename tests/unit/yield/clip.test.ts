import { featureCollection, intersect, kinks, polygon } from '@turf/turf'
import fc from 'fast-check'
import type { MultiPolygon, Polygon, Position } from 'geojson'
import { describe, expect, it } from 'vitest'
import { clipHalfPlane, clipWindow, type HalfPlane } from '../../../geo/yield/clipHalfPlane.ts'
import { type Ring, ringAreaM2, ringsAreaM2, ringsCentroid, ringsOfPolygon } from '../../../geo/yield/ring.ts'
import { sliceGrid } from '../../../geo/yield/sliceGrid.ts'
import { moved, rectangle, starRings } from './shapes.ts'

const closed = (ring: Ring): Position[] => {
  const positions: Position[] = []
  for (let k = 0; k < ring.length; k += 2) positions.push([ring[k]!, ring[k + 1]!])
  return [...positions, positions[0]!]
}

/** Area of a GeoJSON polygon read as plain x and y. */
const flatArea = (geometry: Polygon | MultiPolygon): number => {
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates
  return polygons.reduce((sum, coordinates) => sum + ringsAreaM2(ringsOfPolygon(coordinates)), 0)
}

/** The sides of a convex outline. */
const sidesOf = (ring: Ring): HalfPlane[] =>
  Array.from({ length: ring.length / 2 }, (_, k) => {
    const next = (2 * k + 2) % ring.length
    const [x, y] = [ring[2 * k]!, ring[2 * k + 1]!]
    const [nx, ny] = [y - ring[next + 1]!, ring[next]! - x]
    return { nx, ny, c: nx * x + ny * y }
  })

const window = fc
  .record({
    x: fc.integer({ min: -800, max: 800 }),
    y: fc.integer({ min: -800, max: 800 }),
    length: fc.integer({ min: 50, max: 2000 }),
    width: fc.integer({ min: 20, max: 600 }),
    degrees: fc.integer({ min: 0, max: 179 }),
  })
  .map(({ x, y, length, width, degrees }) =>
    rectangle(x / 100, y / 100, length / 100, width / 100, (degrees * Math.PI) / 180),
  )

describe('clipping to a convex window', () => {
  it('keeps the area that Turf’s polygon overlay keeps', () => {
    // Oracle: @turf/turf 7 intersect (polyclip) on the same numbers read as plain x and y, area by the shoelace formula.
    // Shapes are brought to the origin and set to the millimetre, where the overlay's own rounding does not fail it.
    fc.assert(
      fc.property(starRings, window, (far, at) => {
        const rings = moved(far, -Math.round(far[0]![0]!), -Math.round(far[0]![1]!))
        const [box] = moved([at], 0, 0)
        const wanted = intersect(featureCollection([polygon(rings.map(closed)), polygon([closed(box!)])]))
        const kept = ringsAreaM2(clipWindow(rings, sidesOf(box!)))
        expect(Math.abs(kept - (wanted === null ? 0 : flatArea(wanted.geometry)))).toBeLessThan(1e-8)
      }),
      { numRuns: 300, seed: 20250611 },
    )
  })

  it('cuts an outline with bays into sound parts, and a hole that is cut becomes part of the edge', () => {
    // A comb with its three teeth upwards; cut above its spine it is three rectangles.
    const comb = [0, 0, 10, 0, 10, 5, 8, 5, 8, 2, 6, 2, 6, 5, 4, 5, 4, 2, 2, 2, 2, 5, 0, 5]
    const teeth = clipHalfPlane([comb], { nx: 0, ny: 1, c: 3 })
    expect(teeth.map(ringAreaM2)).toEqual([4, 4, 4])
    const frame = [rectangle(0, 0, 10, 10), [4, 4, 4, 6, 6, 6, 6, 4]]
    const left = clipHalfPlane(frame, { nx: -1, ny: 0, c: -5 })
    expect(left).toHaveLength(1)
    expect(ringsAreaM2(left)).toBe(48)
    const beyondHole = clipHalfPlane(frame, { nx: -1, ny: 0, c: -7 })
    expect(beyondHole).toHaveLength(2)
    expect(ringsAreaM2(beyondHole)).toBe(66)
  })

  it('keeps an edge that lies on the line on one side only', () => {
    const square = [rectangle(0, 0, 2, 2)]
    expect(clipHalfPlane(square, { nx: 1, ny: 0, c: 2 })).toEqual([])
    expect(clipHalfPlane(square, { nx: -1, ny: 0, c: -2 })).toEqual(square)
  })
})

describe('slicing by the grid', () => {
  it('gives cells that add up to the whole, each within its square, each outline free of crossings', () => {
    const cell = fc.constantFrom(0.5, 1, 2.5)
    fc.assert(
      fc.property(starRings, cell, (onLines, cellM) => {
        // A corner exactly on a grid line may leave an outline that touches itself there; the next test has those.
        const rings = onLines.map((ring) => ring.map((v) => v + 0.00037))
        const whole = ringsAreaM2(rings)
        const [cx, cy] = ringsCentroid(rings)
        let sum = 0
        let mx = 0
        let my = 0
        sliceGrid(rings, cellM, (i, j, part, areaM2) => {
          sum += areaM2
          const [x, y] = ringsCentroid(part)
          mx += areaM2 * (x - cx)
          my += areaM2 * (y - cy)
          for (const outline of part) {
            expect(kinks(polygon([closed(outline)])).features).toHaveLength(0)
            outline.forEach((v, k) => {
              const from = (k % 2 === 0 ? i : j) * cellM
              expect(v).toBeGreaterThanOrEqual(from - 1e-9)
              expect(v).toBeLessThanOrEqual(from + cellM + 1e-9)
            })
          }
        })
        expect(Math.abs(sum - whole)).toBeLessThanOrEqual(1e-9 * whole)
        expect(Math.hypot(mx, my)).toBeLessThanOrEqual(1e-7 * whole)
      }),
      { numRuns: 40, seed: 20250612 },
    )
  })

  it('adds up to the whole for outlines whose corners and edges lie on the lines', () => {
    const steps = fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 8 })
    fc.assert(
      fc.property(steps, fc.constantFrom(0.5, 1, 2), (heights, cellM) => {
        // A row of columns a metre wide, each of its own height, above a spine a metre thick.
        const top = heights.flatMap((h, k) => [k, h, k + 1, h]).reverse()
        const swapped: number[] = []
        for (let k = 0; k < top.length; k += 2) swapped.push(top[k + 1]!, top[k]!)
        const skyline = [0, -1, heights.length, -1, ...swapped]
        let sum = 0
        sliceGrid([skyline], cellM, (_i, _j, _rings, areaM2) => {
          sum += areaM2
        })
        expect(sum).toBe(heights.reduce((total, h) => total + h + 1, 0))
      }),
      { numRuns: 100, seed: 20250615 },
    )
  })

  it('lays its lines at whole multiples of the cell from the origin, also west and south of it', () => {
    const cells: string[] = []
    sliceGrid([rectangle(-1.5, -0.5, 2, 1)], 1, (i, j, _rings, areaM2) => cells.push(`${i} ${j} ${areaM2}`))
    expect(cells).toEqual(['-2 -1 0.25', '-2 0 0.25', '-1 -1 0.5', '-1 0 0.5', '0 -1 0.25', '0 0 0.25'])
  })
})
