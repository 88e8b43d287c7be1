import { expect, it } from 'vitest'
import type { LonLat, Metres } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { measureShape } from '../../src/draw/measureShape.ts'
import { problemOf } from '../../src/draw/problemOf.ts'
import { geometryOf, type Shape, shapeOf } from '../../src/draw/shape.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'

/** A repeatable run of numbers from 0 to below 1 (Park & Miller's minimal standard). */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

// A longitude is a double: at 180° its steps are 3 nm apart, which on a narrow bed is more than a part in 10⁹ of its area.
const STEP_M = 3.2e-9

// Against PostGIS on the stored plan (X): st_area, st_length and the long middle of st_orientedenvelope, as `measure` asks them.
it.skipIf(SERVER_ABSENT).each<[string, LonLat]>([
  ['in the north', [-2.31, 52.19]],
  ['in the south, on the 180th meridian', [179.9999, -16.5]],
])('tells a bed as the database will, to a part in 10⁹, %s', async (_, origin) => {
  const db = await openTestDatabase(origin)
  try {
    const next = numbers(20_261)
    const plane = planeAbout(origin)
    for (let n = 0; n < 40; n++) {
      const [lengthM, widthM, a] = [5 + 90 * next(), 0.5 + 3 * next(), 2 * Math.PI * next()]
      const [east, north] = [(next() - 0.5) * 3000, (next() - 0.5) * 3000]
      const uneven = n % 2 === 0 ? 0 : 0.2 * next()
      const corners = [
        [0, 0],
        [lengthM, uneven],
        [lengthM - uneven, widthM],
        [uneven, widthM - uneven],
      ].map(
        ([x, y]): Metres => [east + x! * Math.cos(a) - y! * Math.sin(a), north + x! * Math.sin(a) + y! * Math.cos(a)],
      )
      const drawn: Shape = { type: 'Polygon', parts: [corners] }
      expect(problemOf(drawn)).toBeNull()
      const geometry = geometryOf(drawn, plane)
      const told = measureShape(shapeOf(geometry, plane), true)
      const [kept] = await db.rows<{ area: number; long: number; azimuth: number; line: number }>(
        `with plan as (select st_transform(st_setsrid(st_geomfromgeojson($1), 4326), 990001) as plan),
          shape as (select plan, long_middle(plan) as middle from plan)
        select st_area(plan) as area, st_length(middle) as long, st_length(st_exteriorring(plan)) as line,
          degrees(st_azimuth(st_startpoint(middle), st_endpoint(middle))) as azimuth from shape`,
        [JSON.stringify(inOnePiece(geometry, origin))],
      )
      const stepM = Math.abs(origin[0]) > 90 ? STEP_M : 0
      expect(Math.abs(told.areaM2! - kept!.area)).toBeLessThan(1e-9 * kept!.area + stepM * kept!.line)
      expect(Math.abs(told.lengthM! - kept!.long)).toBeLessThan(1e-9 * kept!.long + stepM)
      const off = Math.abs(((told.bearingDeg! - kept!.azimuth) % 180) + 180) % 180
      expect(Math.min(off, 180 - off)).toBeLessThan(1e-6)
      const outline = measureShape(
        {
          type: 'LineString',
          parts: [[...shapeOf(geometry, plane).parts[0]!, shapeOf(geometry, plane).parts[0]![0]!]],
        },
        false,
      )
      expect(Math.abs(outline.lengthM! - kept!.line)).toBeLessThan(1e-9 * kept!.line + 4 * stepM)
    }
  } finally {
    await db.close()
  }
})

/** Longitudes written on the origin's side, as the store reads a shape on the meridian. */
function inOnePiece(geometry: ReturnType<typeof geometryOf>, [about]: LonLat) {
  if (geometry.type !== 'Polygon') throw new Error(geometry.type)
  return {
    ...geometry,
    coordinates: geometry.coordinates.map((ring) =>
      ring.map(([lon, lat]) => [lon! - about < -180 ? lon! + 360 : lon!, lat!]),
    ),
  }
}
