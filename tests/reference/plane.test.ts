import fc from 'fast-check'
import geodesic from 'geographiclib-geodesic'
import { expect, it } from 'vitest'
import { lonAbout } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'

const earth = geodesic.Geodesic.WGS84

// GeographicLib's published examples (C), so that the reference itself is held: reference values, section 6.
it('has a reference that gives its published values', () => {
  expect(earth.Inverse(40.6, -73.8, 49.01666667, 2.55).s12!).toBeCloseTo(5853226, -1)
  expect(earth.Inverse(37.757540000000006, -122.47018, 37.75754, -122.470177).s12!).toBeCloseTo(0.264, 3)
})

const ORIGINS: readonly (readonly [string, number, number])[] = [
  ['47° N', 15.3, 46.8],
  ['60° N', 24.9, 60.2],
  ['the southern hemisphere', 147.2, -42.9],
  ['the equator', 36.8, 0.1],
  ['the 180th meridian, from the west', 179.999, -17.8],
  ['the 180th meridian, from the east', -179.998, -18.1],
]

/** A point so many metres off on a bearing, by GeographicLib's direct problem. */
function off(lon: number, lat: number, bearingDeg: number, distanceM: number): [number, number] {
  const to = earth.Direct(lat, lon, bearingDeg, distanceM)
  return [to.lon2!, to.lat2!]
}

// The plane against GeographicLib 2.2.0 (X): one part in a million within 5 km of the origin.
it.each(ORIGINS)('agrees with geodesic lengths at %s', (_, lon, lat) => {
  const plane = planeAbout([lon, lat])
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 360, noNaN: true }),
      fc.double({ min: 0, max: 4900, noNaN: true }),
      fc.double({ min: 0, max: 360, noNaN: true }),
      fc.double({ min: 1, max: 90, noNaN: true }),
      (toward, awayM, bearing, lengthM) => {
        const a = off(lon, lat, toward, awayM)
        const b = off(a[0], a[1], bearing, lengthM)
        const [ax, ay] = plane.toMetres(a)
        const [bx, by] = plane.toMetres(b)
        expect(Math.abs(Math.hypot(bx - ax, by - ay) / lengthM - 1)).toBeLessThan(1e-6)
      },
    ),
    { seed: 5, numRuns: 300 },
  )
})

it.each(ORIGINS)('agrees with geodesic areas at %s', (_, lon, lat) => {
  const plane = planeAbout([lon, lat])
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 360, noNaN: true }),
      fc.double({ min: 0, max: 4800, noNaN: true }),
      fc.array(fc.double({ min: 20, max: 150, noNaN: true }), { minLength: 3, maxLength: 9 }),
      (toward, awayM, radii) => {
        const centre = off(lon, lat, toward, awayM)
        const ring = radii.map((radiusM, i) => off(...centre, (-360 * i) / radii.length, radiusM))
        const reference = new geodesic.PolygonArea.PolygonArea(earth)
        for (const [x, y] of ring) reference.AddPoint(y, x)
        const expected = Math.abs(reference.Compute(false, true).area!)
        const metres = ring.map((at) => plane.toMetres(at))
        let twice = 0
        metres.forEach(([x, y], i) => {
          const [nx, ny] = metres[(i + 1) % metres.length]!
          twice += x * ny - nx * y
        })
        expect(Math.abs(Math.abs(twice) / 2 / expected - 1)).toBeLessThan(1e-6)
      },
    ),
    { seed: 6, numRuns: 200 },
  )
})

it.each(ORIGINS)('comes back to where it was at %s', (_, lon, lat) => {
  const plane = planeAbout([lon, lat])
  const at = off(lon, lat, 77, 3210)
  const [backLon, backLat] = plane.toLonLat(plane.toMetres(at))
  expect(backLon).toBeCloseTo(lonAbout(lon, at[0]), 11)
  expect(backLat).toBeCloseTo(at[1], 11)
})
