import fc from 'fast-check'
import type { Geometry, MultiPolygon, Polygon, Position } from 'geojson'
import { describe, expect, it } from 'vitest'
import { cutAtMeridian } from '../../../geo/exchange/cutAtMeridian.ts'
import { joinAtMeridian } from '../../../geo/exchange/joinAtMeridian.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { rightHanded } from '../../../geo/exchange/rightHanded.ts'
import { signedArea } from '../../../geo/exchange/rings.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { mapPositions } from '../../../geo/plane/geometry.ts'
import { lonAbout } from '../../../geo/plane/lonLat.ts'
import { archiveOf, collection, feature } from './archiveOf.ts'

/** As the reader does before joining. */
const about = (lon: number, geometry: Geometry) => mapPositions(geometry, ([x, y]) => [lonAbout(lon, x), y])

// RFC 7946 §3.1.9 (C2: the RFC's examples as quoted on the web).
const RFC_LINE: Geometry = {
  type: 'MultiLineString',
  coordinates: [
    [
      [170.0, 45.0],
      [180.0, 45.0],
    ],
    [
      [-180.0, 45.0],
      [-170.0, 45.0],
    ],
  ],
}
const RFC_BOX: MultiPolygon = {
  type: 'MultiPolygon',
  coordinates: [
    [
      [
        [180.0, 40.0],
        [180.0, 50.0],
        [170.0, 50.0],
        [170.0, 40.0],
        [180.0, 40.0],
      ],
    ],
    [
      [
        [-170.0, 40.0],
        [-170.0, 50.0],
        [-180.0, 50.0],
        [-180.0, 40.0],
        [-170.0, 40.0],
      ],
    ],
  ],
}

/** The ring from its least position on, so that two rings may be compared. */
function fromLeast(ring: readonly Position[]): Position[] {
  const open = ring.slice(0, -1)
  const least = open.reduce(
    (best, p, i) => (p[0]! < open[best]![0]! || (p[0] === open[best]![0] && p[1]! < open[best]![1]!) ? i : best),
    0,
  )
  return [...open.slice(least), ...open.slice(0, least)]
}
const rings = (geometry: Geometry) =>
  (geometry.type === 'Polygon' ? [geometry.coordinates] : (geometry as MultiPolygon).coordinates).map((polygon) =>
    polygon.map(fromLeast),
  )
const area = (geometry: Geometry) =>
  (geometry.type === 'Polygon' ? [geometry.coordinates] : (geometry as MultiPolygon).coordinates)
    .flat()
    .reduce((sum, ring) => sum + signedArea(ring), 0)

describe('the examples of RFC 7946 section 3.1.9', () => {
  it.each([
    [170, 180, 190],
    [-170, -190, -180],
  ])('are each in one piece about %d', (origin, west, east) => {
    const meridian = lonAbout(origin, 180)
    const box = joinAtMeridian(about(origin, RFC_BOX), meridian)
    expect(box.type).toBe('Polygon')
    expect(rings(box)).toEqual([
      [
        [
          [meridian - 10, 40],
          [meridian + 10, 40],
          [meridian + 10, 50],
          [meridian - 10, 50],
        ],
      ],
    ])
    expect(joinAtMeridian(about(origin, RFC_LINE), meridian)).toEqual({
      type: 'LineString',
      coordinates: [
        [meridian - 10, 45],
        [meridian + 10, 45],
      ],
    })
    expect([west, east]).toContain(meridian)
  })
  it('are what the cut makes of one piece', () => {
    const box: Geometry = {
      type: 'Polygon',
      coordinates: [
        [
          [170, 40],
          [190, 40],
          [190, 50],
          [170, 50],
          [170, 40],
        ],
      ],
    }
    expect(rings(cutAtMeridian(box, 180))).toEqual(rings(RFC_BOX))
    expect(
      cutAtMeridian(
        {
          type: 'LineString',
          coordinates: [
            [170, 45],
            [190, 45],
          ],
        },
        180,
      ),
    ).toEqual(RFC_LINE)
  })
})

describe('joining', () => {
  it('leaves alone what is not cut at the meridian, the same object', () => {
    const apart: Geometry = {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [1, 1],
            [2, 1],
            [2, 2],
            [1, 1],
          ],
        ],
        [
          [
            [3, 1],
            [4, 1],
            [4, 2],
            [3, 1],
          ],
        ],
      ],
    }
    expect(joinAtMeridian(apart, 180)).toBe(apart)
    const touching: Geometry = {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [179, 1],
            [180, 2],
            [179, 3],
            [179, 1],
          ],
        ],
        [
          [
            [181, 1],
            [181, 3],
            [180, 2],
            [181, 1],
          ],
        ],
      ],
    }
    expect(joinAtMeridian(touching, 180)).toBe(touching)
    const oneSide: Geometry = {
      type: 'MultiLineString',
      coordinates: [
        [
          [178, 1],
          [180, 2],
        ],
        [
          [180, 3],
          [182, 4],
        ],
      ],
    }
    expect(joinAtMeridian(oneSide, 180)).toBe(oneSide)
  })
  it('keeps a corner that stands on the meridian, clockwise winding, heights and the parts elsewhere', () => {
    const cut: Geometry = {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [170, 10, 1],
            [171, 10, 2],
            [171, 11, 3],
            [170, 10, 1],
          ],
        ],
        [
          [
            [180, 0, 5],
            [179, 0, 6],
            [179, 2, 7],
            [180, 3, 8],
            [180, 0, 5],
          ],
        ],
        [
          [
            [180, 0, 5],
            [180, 3, 8],
            [181, 2, 9],
            [181, 0, 4],
            [180, 0, 5],
          ],
        ],
      ],
    }
    const joined = joinAtMeridian(cut, 180) as MultiPolygon
    expect(joined.coordinates[0]).toEqual(cut.coordinates[0])
    expect(rings(joined)[1]).toEqual([
      [
        [179, 0, 6],
        [179, 2, 7],
        [180, 3, 8],
        [181, 2, 9],
        [181, 0, 4],
      ],
    ])
  })
  it('makes a hole of two notches that meet', () => {
    const cut: Geometry = {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [176, 0],
            [180, 0],
            [180, 4],
            [178, 5],
            [180, 6],
            [180, 10],
            [176, 10],
            [176, 0],
          ],
        ],
        [
          [
            [180, 0],
            [184, 0],
            [184, 10],
            [180, 10],
            [180, 6],
            [182, 5],
            [180, 4],
            [180, 0],
          ],
        ],
      ],
    }
    expect(rings(joinAtMeridian(cut, 180))).toEqual([
      [
        [
          [176, 0],
          [184, 0],
          [184, 10],
          [176, 10],
        ],
        [
          [178, 5],
          [180, 6],
          [182, 5],
          [180, 4],
        ],
      ],
    ])
  })
  it('takes parts that share only some of an edge, and lines in any order', () => {
    const cut: Geometry = {
      type: 'MultiPolygon',
      coordinates: [
        [
          [
            [179, 0],
            [180, 0],
            [180, 6],
            [179, 6],
            [179, 0],
          ],
        ],
        [
          [
            [180, 1],
            [181, 1],
            [181, 2],
            [180, 2],
            [180, 1],
          ],
        ],
        [
          [
            [180, 3],
            [181, 3],
            [181, 4],
            [180, 4],
            [180, 3],
          ],
        ],
      ],
    }
    const joined = joinAtMeridian(cut, 180)
    expect(joined.type).toBe('Polygon')
    expect(area(joined)).toBeCloseTo(2 * (6 + 1 + 1), 12)
    const line: Geometry = {
      type: 'MultiLineString',
      coordinates: [
        [
          [180, 5],
          [179, 6],
        ],
        [
          [179, 1],
          [180, 2],
        ],
        [
          [180, 2],
          [182, 4],
          [180, 5],
        ],
      ],
    }
    expect(joinAtMeridian(line, 180)).toEqual({
      type: 'LineString',
      coordinates: [
        [179, 1],
        [182, 4],
        [180, 5],
        [179, 6],
      ],
    })
  })
  it('gives up on thousands of meetings rather than take minutes', () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => [
      [
        [179, i / 1e4],
        [180, i / 1e4],
      ],
      [
        [180, i / 1e4],
        [181, i / 1e4],
      ],
    ]).flat()
    const polygons = Array.from({ length: 20_000 }, (_, i) => [
      [
        [
          [180, i],
          [179, i],
          [179, i + 1],
          [180, i + 1],
          [180, i],
        ],
      ],
      [
        [
          [180, i],
          [181, i],
          [181, i + 1],
          [180, i + 1],
          [180, i],
        ],
      ],
    ]).flat()
    const begun = performance.now()
    joinAtMeridian({ type: 'MultiLineString', coordinates: lines }, 180)
    joinAtMeridian({ type: 'MultiPolygon', coordinates: polygons }, 180)
    expect(performance.now() - begun).toBeLessThan(2000)
  })
})

/** A simple polygon about a place near the meridian: radii by angle, and a small hole of the same shape in it. */
const star = fc
  .record({
    radii: fc.array(fc.integer({ min: 2, max: 20 }), { minLength: 5, maxLength: 40 }),
    east: fc.integer({ min: -15, max: 15 }),
    hole: fc.boolean(),
  })
  .map(({ radii, east, hole }): Polygon => {
    const ringOf = (scale: number, sense: 1 | -1) => {
      const places = radii.map((radius, i): Position => {
        const angle = (sense * 2 * Math.PI * (i + 0.123)) / radii.length
        const r = sense > 0 ? radius : radii[(radii.length - i) % radii.length]!
        return [180 + east / 10 + (scale * r * Math.cos(angle)) / 10, 10 + (scale * r * Math.sin(angle)) / 10]
      })
      return [...places, places[0]!]
    }
    const outer = ringOf(1, 1)
    const inner = ringOf(0.05, -1)
    return { type: 'Polygon', coordinates: hole ? [outer, inner] : [outer] }
  })

describe('cutting, on seeded random shapes', () => {
  it('keeps the area, stays within ±180, and joining gives the same shape back', () => {
    let crossed = 0
    fc.assert(
      fc.property(star, (shape) => {
        const cut = cutAtMeridian(shape, 180)
        if (cut === shape) return
        crossed++
        expect(area(cut)).toBeCloseTo(area(shape), 9)
        const lons = (cut as MultiPolygon).coordinates.flat(2).map((p) => p[0]!)
        expect(Math.max(...lons.map(Math.abs))).toBe(180)
        for (const polygon of (cut as MultiPolygon).coordinates) {
          expect(new Set(polygon.flat().map((p) => Math.sign(p[0]!))).size).toBe(1)
          expect(polygon.map((ring) => signedArea(ring) > 0)).toEqual(polygon.map((_, i) => i === 0))
        }
        expect(rings(joinAtMeridian(about(179, cut), 180))).toEqual(rings(shape))
      }),
      { seed: 7946, numRuns: 1500 },
    )
    expect(crossed).toBeGreaterThan(700)
  })
})

describe('winding by RFC 7946 section 3.1.6', () => {
  it('is outer counter-clockwise, holes clockwise, whatever it was', () => {
    const outer: Position[] = [
      [100, 0],
      [101, 0],
      [101, 1],
      [100, 1],
      [100, 0],
    ]
    const hole: Position[] = [
      [100.8, 0.8],
      [100.8, 0.2],
      [100.2, 0.2],
      [100.2, 0.8],
      [100.8, 0.8],
    ]
    // The RFC's appendix A.3 (C2): a polygon with a hole as it should be.
    const right: Geometry = { type: 'Polygon', coordinates: [outer, hole] }
    const wrong: Geometry = { type: 'Polygon', coordinates: [[...outer].reverse(), [...hole].reverse()] }
    expect(rightHanded(right)).toEqual(right)
    expect(rightHanded(wrong)).toEqual(right)
  })
})

describe('a farm on the 180th meridian', () => {
  const lot = (west: number, east: number) => [
    [
      [west, -16.8],
      [east, -16.8],
      [east, -16.799],
      [west, -16.799],
      [west, -16.8],
    ],
  ]
  const farm = (origin?: number[]) => ({
    format: 'selion-farm',
    version: 1,
    name: 'Invented farm on the meridian',
    ...(origin ? { origin } : {}),
  })
  const cut = { type: 'MultiPolygon', coordinates: [lot(179.9995, 180), lot(-180, -179.9995)] }
  const either = { type: 'Polygon', coordinates: lot(179.9995, -179.9995) }
  it.each([
    ['cut by RFC 7946', cut, undefined],
    ['with longitudes on either side', either, undefined],
    ['cut, its origin east of the meridian', cut, [-179.9999, -16.8]],
    ['on either side, its origin west of the meridian', either, [179.9999, -16.8]],
  ])('is read in one piece: %s', (_what, geometry, origin) => {
    const given = archiveOf({
      'farm.json': farm(origin),
      'fields.geojson': collection(feature('f1', geometry, { name: 'Shore' })),
      'beds.geojson': collection(feature('b1', geometry, { field: 'f1', name: 'Bed' })),
    })
    const { content, faults } = readArchive(given)
    expect(faults).toEqual([])
    for (const kind of ['fields', 'beds']) {
      const shape = content!.records.get(kind)![0]!.geom as Polygon
      expect(shape.type).toBe('Polygon')
      const lons = shape.coordinates[0]!.map((p) => p[0]!)
      expect(Math.max(...lons) - Math.min(...lons)).toBeCloseTo(0.001, 12)
      expect(shape.coordinates[0]).toHaveLength(5)
    }
    if (!origin) {
      expect(Math.abs(content!.origin![0])).toBeCloseTo(180, 9)
      expect(content!.origin![1]).toBeCloseTo(-16.7995, 9)
    }
    const again = readArchive(writeArchive(content!))
    expect(again.content).toEqual(content)
  })
})
