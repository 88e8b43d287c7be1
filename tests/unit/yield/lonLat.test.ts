import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { groundPolygon } from '../../../geo/yield/groundPolygon.ts'
import { nearLonLat } from '../../../geo/yield/nearLonLat.ts'
import { rectangle } from './shapes.ts'

describe('lon/lat for drawing', () => {
  it.each([0, 47, -43, 60, 70])('is within 0.2 mm of the plane’s own inverse at latitude %i, to 5 km off', (lat) => {
    const plane = planeAbout([25, lat])
    const near = nearLonLat(plane)
    const metres = fc.double({ min: -3500, max: 3500, noNaN: true })
    fc.assert(
      fc.property(metres, metres, (x, y) => {
        const [east, north] = plane.toMetres(near(x, y))
        expect(Math.hypot(east - x, north - y)).toBeLessThan(2e-4)
      }),
      { numRuns: 300, seed: 20250621 },
    )
  })
})

describe('ground as GeoJSON', () => {
  it('closes its rings, gives each hole to the part it lies in, and keeps the right-hand rule', () => {
    const hole = [13, 3, 13, 5, 15, 5, 15, 3]
    const two = [rectangle(0, 0, 8, 8), rectangle(10, 0, 8, 8), hole]
    const shape = groundPolygon(two, (x, y) => [x, y])
    expect(shape).toEqual({
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [0, 0],
            [8, 0],
            [8, 8],
            [0, 8],
            [0, 0],
          ],
        ],
        [
          [
            [10, 0],
            [18, 0],
            [18, 8],
            [10, 8],
            [10, 0],
          ],
          [
            [13, 3],
            [13, 5],
            [15, 5],
            [15, 3],
            [13, 3],
          ],
        ],
      ],
    })
    expect(groundPolygon([rectangle(0, 0, 1, 1)], (x, y) => [x, y]).type).toBe('Polygon')
  })
})
