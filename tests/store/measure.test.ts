import geodesic from 'geographiclib-geodesic'
import { expect, it } from 'vitest'
import { MATURE_REACH_M } from '../../geo/measure/canopy.ts'
import { clearance } from '../../geo/measure/clearance.ts'
import { measure } from '../../geo/measure/measure.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { type Brief, load } from './farmOf.ts'
import { SERVER_ABSENT, withPlane } from './harness.ts'

const earth = geodesic.Geodesic.WGS84
type Spot = [lon: number, lat: number]

const off = ([lon, lat]: Spot, bearingDeg: number, distanceM: number): Spot => {
  const to = earth.Direct(lat, lon, bearingDeg, distanceM)
  return [to.lon2!, to.lat2!]
}
const lengthM = (a: Spot, b: Spot) => earth.Inverse(a[1], a[0], b[1], b[0]).s12!
const areaM2 = (ring: Spot[]) => {
  const polygon = new geodesic.PolygonArea.PolygonArea(earth)
  for (const [lon, lat] of ring) polygon.AddPoint(lat, lon)
  return Math.abs(polygon.Compute(false, true).area!)
}
/** The same longitude on the origin's side of ±180, as the store holds it. */
const whole = (origin: Spot, ring: Spot[]) =>
  ring.map(([lon, lat]) => [lon - origin[0] > 180 ? lon - 360 : lon - origin[0] < -180 ? lon + 360 : lon, lat])
const polygon = (origin: Spot, ring: Spot[]) => ({
  type: 'Polygon' as const,
  coordinates: [whole(origin, [...ring, ring[0]!])],
})
const line = (origin: Spot, spots: Spot[]) => ({ type: 'LineString' as const, coordinates: whole(origin, spots) })

/**
 * Area of a small geodesic rectangle from its sides; so small a polygon loses 1e-5 m² in GeographicLib's own series, which
 * reckons down to the equator. The excess of a bed's corners over right angles is some 1e-11.
 */
const rectangleM2 = ([a, b, c, d]: Spot[]) =>
  ((lengthM(a!, b!) + lengthM(c!, d!)) * (lengthM(b!, c!) + lengthM(d!, a!))) / 4

interface Bed {
  id: string
  ring: Spot[]
  lengthM: number
  widthM: number
  bearingDeg: number
  rows: { id: string; from: Spot; to: Spot }[]
}

/** A bed as four geodesic corners, with rows along it, somewhere within 4.9 km of the origin. */
function randomBed(random: () => number, origin: Spot, id: string): Bed {
  const corner = off(origin, 360 * random(), 4900 * Math.sqrt(random()))
  const bearingDeg = 180 * random()
  const [long, wide] = [8 + 40 * random(), 0.7 + 0.8 * random()]
  const end = off(corner, bearingDeg, long)
  const ring = [corner, off(corner, bearingDeg + 90, wide), off(end, bearingDeg + 90, wide), end]
  const rows = [0.3, 0.7].map((share, i) => ({
    id: `${id}r${i}`,
    from: off(corner, bearingDeg + 90, wide * share),
    to: off(end, bearingDeg + 90, wide * share),
  }))
  return { id, ring, lengthM: long, widthM: wide, bearingDeg, rows }
}

/** A five-cornered field about a bed, by GeographicLib. */
const fieldAbout = (bed: Bed) => [10, 80, 150, 230, 300].map((bearing) => off(bed.ring[0]!, bearing, 110))

const PLACES: readonly (readonly [string, Spot])[] = [
  ['47° N', [15.3, 46.8]],
  ['60° N', [24.9, 60.2]],
  ['43° S', [147.2, -42.9]],
  ['the 180th meridian', [179.99, -17.8]],
]

// Areas, lengths and distances against GeographicLib 2.2.0 (X); one part in a million, as the design asks.
it.skipIf(SERVER_ABSENT).each(PLACES)(
  'measures seeded beds, rows and distances as the ellipsoid has them at %s',
  async (_, origin) => {
    const random = seededRandom(20)
    const beds = Array.from({ length: 25 }, (_, i) => randomBed(random, origin, `b${i}`))
    const trees = beds.map((bed, i) => ({
      id: `t${i}`,
      spot: off(bed.ring[0]!, bed.bearingDeg - 90 - 30 * random(), 2 + 20 * random()),
    }))
    await withPlane(origin, async (db) => {
      await load(db, {
        farm: [{ id: 'farm', name: 'Seeded', units: 'metric', season_start_month: 1 }],
        fields: beds.map((bed) => ({ id: `f-${bed.id}`, name: bed.id, geom: polygon(origin, fieldAbout(bed)) })),
        beds: beds.map((bed) => ({ id: bed.id, field: `f-${bed.id}`, name: bed.id, geom: polygon(origin, bed.ring) })),
        rows: beds.flatMap((bed) =>
          bed.rows.map(({ id, from, to }) => ({ id, bed: bed.id, geom: line(origin, [from, to]) })),
        ),
        trees: trees.map(({ id, spot }) => ({
          id,
          species: 'Juglans nigra',
          height_m: 12,
          canopy_radius_m: 3,
          measured: '2026-01-01',
          juglone: 'source',
          geom: { type: 'Point', coordinates: whole(origin, [spot])[0] },
        })),
      })
      const measured = await measure(db, '2026-01-01')
      expect(measured.fields).toHaveLength(25)
      measured.beds.forEach((got, i) => {
        const bed = beds[i]!
        const near = (value: number, wanted: number) => expect(Math.abs(value / wanted - 1)).toBeLessThan(1e-6)
        near(got.area_m2, rectangleM2(bed.ring))
        near(got.length_m, lengthM(bed.ring[0]!, bed.ring[3]!))
        near(got.width_m, rectangleM2(bed.ring) / lengthM(bed.ring[0]!, bed.ring[3]!))
        near(
          got.row_m,
          bed.rows.reduce((sum, row) => sum + lengthM(row.from, row.to), 0),
        )
        const turned = Math.abs(got.bearing_deg - bed.bearingDeg)
        // The plane's north and true north part by at most the meridian convergence, 5 km east or west.
        expect(Math.min(turned, 180 - turned)).toBeLessThan(0.1)
        near(measured.fields[i]!.area_m2, areaM2(fieldAbout(bed)))
        near(measured.fields[i]!.bed_area_m2, rectangleM2(bed.ring))
      })
      for (const pair of await clearance(db, '2026-01-01')) {
        const bed = beds.find((one) => one.id === pair.bed)!
        const tree = trees.find((one) => one.id === pair.tree)!
        const along = [0, 3].flatMap((corner) => {
          const from = bed.ring[corner]!
          const to = corner === 0 ? bed.ring[3]! : bed.ring[0]!
          return Array.from({ length: 801 }, (_, i) =>
            lengthM(tree.spot, off(from, earth.Inverse(from[1], from[0], to[1], to[0]).azi1!, (bed.lengthM * i) / 800)),
          )
        })
        if (bed.id.slice(1) !== tree.id.slice(1)) continue
        expect(Math.abs(pair.trunk_m - Math.min(...along))).toBeLessThan(0.002)
        expect(pair.canopy_m).toBeCloseTo(pair.trunk_m - 3, 9)
      }
    })
  },
)

// Held metres against walking the row in steps of a centimetre.
it.skipIf(SERVER_ABSENT)('parts climbing metres into held and unheld as walking the row does', async () => {
  const origin: Spot = [15.3, 46.8]
  const random = seededRandom(7)
  const at = (x: number, y: number): Spot => off(off(origin, 90, x), 0, y)
  const beds = Array.from({ length: 12 }, (_, i) => i * 3)
  const supports = beds.flatMap((y, i) =>
    Array.from({ length: 3 }, (_, s) => {
      const [x, turn] = [30 * random(), random() - 0.5]
      return {
        id: `s${i}-${s}`,
        from: [x, y + 1.4 * random() - 0.2] as const,
        to: [x + 4 + 9 * random(), y + 0.5 + turn] as const,
        up: random() < 0.7,
      }
    }),
  )
  const stretches = beds.map((y, i) => ({ id: `p${i}`, y: y + 0.5, fromM: 12 * random(), toM: 20 + 19 * random() }))
  const records: Brief = {
    farm: [{ id: 'farm', name: 'Seeded', units: 'metric', season_start_month: 1 }],
    crops: [{ id: 'bean', name: 'Pole bean', family: 'Fabaceae', climbs: true }],
    varieties: [{ id: 'v', crop: 'bean', name: 'V' }],
    systems: [
      { id: 'net', name: 'Net' },
      { id: 'unused', name: 'Unused' },
    ],
    fields: [{ id: 'f', name: 'F', geom: polygon(origin, [at(-2, -2), at(50, -2), at(50, 40), at(-2, 40)]) }],
    beds: beds.map((y, i) => ({
      id: `b${i}`,
      field: 'f',
      name: `B${i}`,
      geom: polygon(origin, [at(0, y), at(40, y), at(40, y + 1), at(0, y + 1)]),
    })),
    rows: beds.map((y, i) => ({ id: `r${i}`, bed: `b${i}`, geom: line(origin, [at(0, y + 0.5), at(40, y + 0.5)]) })),
    plantings: stretches.map(({ id, fromM, toM }, i) => ({
      id,
      row: `r${i}`,
      variety: 'v',
      from_m: fromM,
      to_m: toM,
      set_out: '2026-05-01',
      cleared: '2026-10-01',
    })),
    supports: supports.map(({ id, from, to, up }) => ({
      id,
      system: 'net',
      put_up: up ? '2026-05-10' : '2026-09-01',
      geom: line(origin, [at(...from), at(...to)]),
    })),
  }
  await withPlane(origin, async (db) => {
    await load(db, records)
    const measured = await measure(db, '2026-07-01')
    const stands = supports.filter((support) => support.up)
    const apart = ([px, py]: readonly [number, number], a: readonly [number, number], b: readonly [number, number]) => {
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
      const t = Math.min(1, Math.max(0, ((px - a[0]) * dx + (py - a[1]) * dy) / (dx * dx + dy * dy)))
      return Math.hypot(px - a[0] - t * dx, py - a[1] - t * dy)
    }
    measured.beds.forEach((bed, i) => {
      const { y, fromM, toM } = stretches[i]!
      let heldM = 0
      for (let x = fromM + 0.005; x < toM; x += 0.01)
        if (stands.some((support) => apart([x, y], support.from, support.to) <= 0.6)) heldM += 0.01
      expect(bed.climbing_m).toBeCloseTo(toM - fromM, 4)
      expect(Math.abs(bed.climbing_m - bed.unheld_m - heldM)).toBeLessThan(0.05)
    })
    const [field] = measured.fields
    expect(field!.held_m + field!.unheld_m).toBeCloseTo(field!.climbing_m, 9)
    expect(field!.held_m).toBeGreaterThan(20)
    expect(field!.unheld_m).toBeGreaterThan(20)
    expect(field!.support_m.Unused).toBe(0)
    const reference = stands.reduce((sum, { from, to }) => sum + lengthM(at(...from), at(...to)), 0)
    expect(Math.abs(field!.support_m.Net! - reference)).toBeLessThan(1e-3)
    const before = await measure(db, '2026-04-30')
    expect(before.fields[0]).toMatchObject({ climbing_m: 0, held_m: 0, unheld_m: 0 })
    expect(await measure(db, '2026-10-01')).toMatchObject({ fields: [{ climbing_m: 0 }] })
  })
})

it.skipIf(SERVER_ABSENT)(
  'pairs beds with walnuts by distance and reach, and names what is sensitive there that day',
  async () => {
    const origin: Spot = [15.3, 46.8]
    const at = (x: number, y: number): Spot => off(off(origin, 90, x), 0, y)
    const bed = (id: string, y: number) => ({
      id,
      field: 'f',
      name: id,
      geom: polygon(origin, [at(0, y), at(20, y), at(20, y + 1), at(0, y + 1)]),
    })
    await withPlane(origin, async (db) => {
      await load(db, {
        farm: [{ id: 'farm', name: 'Made', units: 'metric', season_start_month: 1 }],
        crops: [
          { id: 'tomato', name: 'Tomato', family: 'Solanaceae', juglone: 'sensitive' },
          { id: 'bean', name: 'Bean', family: 'Fabaceae', juglone: 'tolerant' },
        ],
        varieties: [
          { id: 't', crop: 'tomato', name: 'T' },
          { id: 'b', crop: 'bean', name: 'B' },
        ],
        fields: [{ id: 'f', name: 'F', geom: polygon(origin, [at(-5, -5), at(60, -5), at(60, 90), at(-5, 90)]) }],
        beds: [bed('near', 0), bed('middling', 25), bed('far', 60)],
        plantings: [
          { id: 'p1', bed: 'near', variety: 't', set_out: '2026-05-01', cleared: '2026-09-01' },
          { id: 'p2', bed: 'near', variety: 'b', set_out: '2026-05-01' },
        ],
        trees: [
          {
            id: 'black',
            species: 'Juglans nigra',
            height_m: 20,
            canopy_radius_m: 6,
            measured: '2026-07-01',
            geom: { type: 'Point', coordinates: at(10, -3) },
          },
          {
            id: 'hazel',
            species: 'Corylus avellana',
            height_m: 3,
            canopy_radius_m: 2,
            geom: { type: 'Point', coordinates: at(10, -2) },
          },
        ],
      })
      const pairs = await clearance(db, '2026-07-01')
      expect(pairs.map((pair) => [pair.bed, pair.tree])).toEqual([
        ['near', 'black'],
        ['middling', 'black'],
      ])
      const [near, middling] = pairs
      expect(near).toMatchObject({ sensitive: ['tomato'] })
      expect(near!.trunk_m).toBeCloseTo(3, 3)
      expect(near!.canopy_m).toBeCloseTo(-3, 3)
      // The strip of a disc of radius 6 between 3 and 4 m from its centre, by the segment formula; it is narrower than the bed.
      const beyond = (h: number, r: number) => r * r * Math.acos(h / r) - h * Math.sqrt(r * r - h * h)
      expect(near!.under_canopy_m2).toBeCloseTo(beyond(3, 6) - beyond(4, 6), 3)
      expect(near!.within_reach_m2).toBeCloseTo(20, 3)
      expect(middling).toMatchObject({ under_canopy_m2: 0, within_reach_m2: 0, sensitive: [] })
      expect(middling!.trunk_m).toBeGreaterThan(MATURE_REACH_M)
      expect((await clearance(db, '2026-09-01'))[0]!.sensitive).toEqual([])
    })
  },
)
