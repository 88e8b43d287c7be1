import type { Position } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import type { Database } from '../../geo/store/database.ts'
import { reckonComparisons } from '../../geo/yield/compare/reckonComparisons.ts'
import { reckonNear } from '../../geo/yield/near/reckonNear.ts'
import { readPoints, reckonPoints } from '../../geo/yield/points/reckonPoints.ts'
import { readYieldInput } from '../../geo/yield/readYieldInput.ts'
import { reckonYield } from '../../geo/yield/reckonYield.ts'
import { reckonSeasons } from '../../geo/yield/seasons/reckonSeasons.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { surfaceGeoJson } from '../../geo/yield/surfaceGeoJson.ts'
import { yieldOnMap } from '../../geo/yield/yieldOnMap.ts'
import { rectangle } from '../unit/yield/shapes.ts'
import { type Brief, load } from './farmOf.ts'
import { SERVER_ABSENT, withPlane } from './harness.ts'

const ORIGIN: LonLat = [15.3, 46.8]

const sum = (values: Iterable<number>): number => [...values].reduce((total, v) => total + v, 0)

/** Shapes given in the plane, as the store takes them. */
function drawing(origin: LonLat) {
  const plane = planeAbout(origin)
  const positions = (flat: readonly number[]): Position[] =>
    Array.from({ length: flat.length / 2 }, (_, k) => [...plane.toLonLat([flat[2 * k]!, flat[2 * k + 1]!])])
  return {
    area: (ring: readonly number[]) => ({
      type: 'Polygon' as const,
      coordinates: [[...positions(ring), ...positions(ring.slice(0, 2))]],
    }),
    line: (flat: readonly number[]) => ({ type: 'LineString' as const, coordinates: positions(flat) }),
    point: (x: number, y: number) => ({ type: 'Point' as const, coordinates: positions([x, y])[0]! }),
    spot: (x: number, y: number) => {
      const [lon, lat] = plane.toLonLat([x, y])
      return { lon, lat }
    },
  }
}

const CROPS: Brief = {
  crops: [
    { id: 'tomato', name: 'Tomato', family: 'Solanaceae' },
    { id: 'leek', name: 'Leek', family: 'Amaryllidaceae' },
  ],
  varieties: [
    { id: 'tom', crop: 'tomato', name: 'Round' },
    { id: 'lee', crop: 'leek', name: 'Long' },
  ],
}

/** Ten beds of 32 m × 1 m with paths of 0.6 m, one row each, tomato in stretches of 4 m; the south-west corner is poor. */
function poorCorner(origin: LonLat): Brief {
  const { area, line, point } = drawing(origin)
  const beds = Array.from({ length: 10 }, (_, b) => b)
  const spans = beds.flatMap((b) => Array.from({ length: 8 }, (_, s) => ({ b, s, id: `p${b}-${s}` })))
  const random = seededRandom(3)
  return {
    ...CROPS,
    farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 1 }],
    fields: [{ id: 'f', name: 'Field', geom: area(rectangle(-5, -3, 60, 30)) }],
    beds: beds.map((b) => ({ id: `b${b}`, field: 'f', name: `${b}`, geom: area(rectangle(0, 1.6 * b, 32, 1)) })),
    rows: beds.map((b) => ({ id: `r${b}`, bed: `b${b}`, geom: line([0, 1.6 * b + 0.5, 32, 1.6 * b + 0.5]) })),
    trees: [
      { id: 'near', species: 'Juglans nigra', canopy_radius_m: 3, geom: point(-4, 2) },
      { id: 'far', species: 'Malus', canopy_radius_m: 1, geom: point(-8, 2) },
      { id: 'felled', species: 'Malus', canopy_radius_m: 9, removed: '2024-12-31', geom: point(0, 2) },
    ],
    systems: [
      { id: 'weave', name: 'String weave' },
      { id: 'net', name: 'Net' },
    ],
    supports: [
      { id: 's0', system: 'weave', put_up: '2025-05-01', taken_down: '2025-11-01', geom: line([0, 0.5, 6, 0.5]) },
      { id: 's1', system: 'net', put_up: '2024-05-01', taken_down: '2024-11-01', geom: line([0, 2.1, 6, 2.1]) },
      { id: 's2', system: 'net', put_up: '2025-05-01', geom: line([20, 0.5, 32, 0.5]) },
    ],
    plantings: spans.map(({ id, b, s }) => ({
      id,
      row: `r${b}`,
      variety: 'tom',
      from_m: 4 * s,
      to_m: 4 * s + 4,
      set_out: '2025-05-01',
      cleared: '2025-10-10',
    })),
    picks: spans.map(({ id, b, s }) => ({
      id: `k${id}`,
      on: '2025-08-01',
      planting: id,
      quantity: (b < 4 && s < 3 ? 2 : 10) * (0.9 + 0.2 * random()),
      unit: 'kg',
      kg_per_unit: 1,
    })),
    dressings: [
      { id: 'd1', on: '2025-04-01', bed: 'b1', material: 'compost', kg_per_m2: 3 },
      { id: 'd2', on: '2024-04-01', bed: 'b1', material: 'lime' },
      { id: 'd3', on: '2025-04-01', bed: 'b9', material: 'mulch' },
    ],
  }
}

const withFarm = <T>(origin: LonLat, records: Brief, work: (db: Database) => Promise<T>): Promise<T> =>
  withPlane(origin, async (db) => {
    await load(db, records)
    return work(db)
  })

describe.skipIf(SERVER_ABSENT)('a season read from the store', () => {
  it('takes picks by the farm’s own season, sums them by where they were told of, and says which have no weight', async () => {
    const { area, line, spot } = drawing(ORIGIN)
    const pick = (id: string, on: string, more: Record<string, unknown>) => ({
      id,
      on,
      quantity: 2,
      unit: 'crate',
      kg_per_unit: 5,
      ...more,
    })
    const records: Brief = {
      ...CROPS,
      farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 7 }],
      fields: [{ id: 'f', name: 'Field', geom: area(rectangle(-5, -5, 60, 30)) }],
      beds: [{ id: 'b', field: 'f', name: 'B', geom: area(rectangle(0, 0, 20, 1)) }],
      rows: [{ id: 'r', bed: 'b', geom: line([0, 0.5, 20, 0.5]) }],
      plantings: [
        { id: 'old', row: 'r', variety: 'lee', set_out: '2024-09-01', cleared: '2025-07-01' },
        { id: 'p', row: 'r', variety: 'tom', set_out: '2025-09-01' },
        { id: 'next', row: 'r', variety: 'tom', set_out: '2026-07-01' },
      ],
      picks: [
        pick('a', '2025-06-30', { planting: 'old' }),
        pick('b', '2025-07-01', { bed: 'b' }),
        pick('c', '2026-01-10', { planting: 'p' }),
        pick('d', '2026-06-30', { planting: 'p' }),
        pick('e', '2026-07-01', { planting: 'p' }),
        pick('f', '2026-01-10', { planting: 'p', kg_per_unit: null }),
        pick('g', '2026-01-11', spot(4, 0.5)),
        pick('h', '2026-01-12', spot(4, 0.5)),
      ],
    }
    await withFarm(ORIGIN, records, async (db) => {
      const input = await readYieldInput(db, 2025)
      expect(input.span).toEqual({ from: '2025-07-01', to: '2026-06-30' })
      expect(input.plantings.map((p) => [p.id, p.crop, p.setOut, p.cleared])).toEqual([
        ['p', 'tomato', '2025-09-01', null],
      ])
      expect(input.picks).toEqual({
        plantings: [{ planting: 'p', kg: 20, picks: 2 }],
        beds: [{ bed: 'b', kg: 10, picks: 1 }],
        spots: [{ x: expect.closeTo(4, 6), y: expect.closeTo(0.5, 6), kg: 20, picks: 2 }],
        unweighed: 1,
      })
      const { report } = await reckonYield(db, { season: 2025 })
      expect(report.totalKg).toBeCloseTo(50, 9)
      expect(report.notes.find((note) => note.kind === 'picks-unweighed')!.detail).toMatch(/^1 pick is left out/)
      expect((await reckonYield(db, { season: 2024 })).report.totalKg).toBeCloseTo(10, 9)
    })
  })

  it('lays cells and strips whose areas PostGIS finds the same', async () => {
    // Oracle: ST_Intersection with ST_SquareGrid, and with a flat-ended ST_Buffer of the stretch, on the stored plan.
    const { area, line } = drawing(ORIGIN)
    const random = seededRandom(8)
    const beds = Array.from({ length: 12 }, (_, b) => {
      const [x, y, turn] = [(random() - 0.5) * 3000, (random() - 0.5) * 3000, random() * Math.PI]
      const at = (s: number, t: number) => [
        x + s * Math.cos(turn) - t * Math.sin(turn),
        y + s * Math.sin(turn) + t * Math.cos(turn),
      ]
      const ring = [...at(0, 0), ...at(12, 0), ...at(12.6, 1.2), ...at(-0.4, 1.1)]
      return {
        id: `b${b}`,
        ring,
        row: [...at(0, 0.3), ...at(6, 0.35), ...at(12, 0.3)],
        field: rectangle(x - 30, y - 30, 60, 60),
      }
    })
    const records: Brief = {
      ...CROPS,
      farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 1 }],
      fields: beds.map(({ id, field }) => ({ id: `f${id}`, name: id, geom: area(field) })),
      beds: beds.map(({ id, ring }) => ({ id, field: `f${id}`, name: id, geom: area(ring) })),
      rows: beds.flatMap(({ id, row }) => [0, 1].map((k) => ({ id: `r${id}${k}`, bed: id, geom: line(row) }))),
      plantings: beds.flatMap(({ id }) => [
        { id: `p${id}`, row: `r${id}0`, variety: 'tom', from_m: 1, to_m: 9, set_out: '2025-05-01' },
        { id: `q${id}`, row: `r${id}1`, variety: 'lee', set_out: '2025-05-01' },
        { id: `m${id}`, bed: id, variety: 'lee', from_m: 2, to_m: 5, set_out: '2025-05-01' },
      ]),
      picks: beds.map(({ id }) => ({
        id: `k${id}`,
        on: '2025-08-01',
        planting: `m${id}`,
        quantity: 6,
        unit: 'kg',
        kg_per_unit: 1,
      })),
    }
    await withFarm(ORIGIN, records, async (db) => {
      const { report } = await reckonYield(db, { season: 2025, smoothM: 0 })
      const cells = await db.rows<{ bed: string; i: number; j: number; area_m2: number }>(
        `select b.id as bed, g.i, g.j, st_area(st_intersection(g.geom, b.plan)) as area_m2
         from beds b cross join lateral st_squaregrid(1, b.plan) g where st_intersects(g.geom, b.plan)`,
      )
      const wanted = new Map(cells.map((cell) => [`${cell.bed} ${cell.i} ${cell.j}`, cell.area_m2]))
      for (const piece of report.pieces.pieces) {
        const key = `${report.beds[piece.bed]!.id} ${piece.i} ${piece.j}`
        expect(Math.abs(piece.areaM2 - wanted.get(key)!), key).toBeLessThan(1e-8)
        wanted.delete(key)
      }
      expect(Math.max(0, ...wanted.values())).toBeLessThan(1e-8)

      // What a planting told by a stretch of its bed gave lies on that stretch of the long middle, as wide as the bed.
      const ground = await db.rows<{ bed: string; area_m2: number }>(
        `select s.bed, st_area(st_intersection(st_buffer(s.plan, 3, 'endcap=flat'), b.plan)) as area_m2
         from stretches s join beds b on b.id = s.bed where s.planting like 'm%'`,
      )
      const areaOf = new Map(ground.map(({ bed, area_m2 }) => [bed, area_m2]))
      report.beds.forEach(({ id }, b) => {
        const densities = report.pieces.pieces.flatMap((piece, k) =>
          piece.bed === b ? [report.masses.kg[k]! / piece.areaM2] : [],
        )
        expect(Math.max(...densities)).toBeCloseTo(6 / areaOf.get(id)!, 6)
      })
    })
  })
})

describe.skipIf(SERVER_ABSENT).each<[string, LonLat]>([
  ['47° N', ORIGIN],
  ['the 180th meridian', [179.9999, -17.8]],
])('a poor corner at %s', (_, origin) => {
  it('is found, outlined with its paths, told with what lies near, and drawn with the mass that was picked', async () => {
    await withFarm(origin, poorCorner(origin), async (db) => {
      const reckoned = await reckonYield(db, { season: 2025, cellM: 0.5 })
      const { report, surroundings } = reckoned
      expect(report.zones).toHaveLength(1)
      const [zone] = report.zones
      expect(zone!.index).toBeLessThan(0.5)
      expect(zone!.beds.length).toBeGreaterThanOrEqual(3)
      expect(zone!.beds.every((b) => b < 5)).toBe(true)

      const [there] = surroundings
      expect(there!.outline.type).toBe('Polygon')
      // Beds and paths of the zone, measured by PostGIS: its outline covers every one of its stretches.
      const [area] = await db.rows<{ outline_m2: number }>(
        `select st_area(st_transform(st_setsrid(st_geomfromgeojson($1), 4326), 990001)) as outline_m2`,
        [JSON.stringify(there!.outline)],
      )
      expect(area!.outline_m2).toBeGreaterThan(zone!.areaM2)
      expect(area!.outline_m2).toBeLessThan(zone!.areaM2 * 1.7)

      expect(there!.tree).toEqual({
        id: 'near',
        species: 'Juglans nigra',
        name: null,
        trunkM: expect.closeTo(4, 3),
        canopyM: expect.closeTo(1, 3),
      })
      expect(there!.fieldEdgeM).toBeCloseTo(3, 3)
      expect(there!.supports).toEqual([{ system: 'weave', name: 'String weave', lengthM: expect.closeTo(6, 2) }])
      expect(there!.dressings).toEqual([{ bed: 'b1', on: '2025-04-01', material: 'compost', kgPerM2: 3 }])

      const asked = { season: 2025, seasons: [], of: null }
      const near = await reckonNear(db, asked)
      expect(near.plots).toBe(80)
      // The corner by the walnut is one patch of many plots alike: it ranks first, but one patch proves little.
      expect(near.effects[0]).toMatchObject({ id: 'walnut', reachM: 8 })
      expect(near.effects[0]!.effect).toBeLessThan(0)
      expect(near.effects.map(({ id }) => id)).toEqual(
        expect.arrayContaining(['field edge', 'support: String weave', 'support: Net', 'dressing: compost']),
      )
      // The zone lies by the walnut. Of what is held, two plots in the corner have the weave, three far off the net.
      const inZone = new Map(near.zones[0]!.factors.map((factor) => [factor.id, factor]))
      expect(near.zones.map(({ zone }) => zone)).toEqual(['zone 1'])
      expect(inZone.get('walnut')!.here).toBeGreaterThan(10 * inZone.get('walnut')!.elsewhere!)
      expect(inZone.get('support: Net')!.here).toBe(0)
      expect(inZone.get('support: Net')!.elsewhere).toBeGreaterThanOrEqual(3 / 4)
      expect(near.partial.find(({ id }) => id === 'walnut')!.points).toHaveLength(80)
      expect(near.questions.map(({ id }) => id)).toContain('zone 1: picks not written down')
      // Once one is noted where it is asked, that stands in the farm's records; a year before, it is no answer.
      const wet = near.questions.find(({ kind }) => kind === 'wet or packed ground')!
      const noted = { kind: wet.kind, geom: { type: 'Point', coordinates: [...wet.at] } }
      const notedOn = async () =>
        (await reckonNear(db, asked)).questions.flatMap(({ kind, notedOn: on }) => (kind === wet.kind ? [on] : []))
      await load(db, { observations: [{ id: 'o1', on: '2024-09-01', ...noted }] })
      expect(await notedOn()).toEqual([null])
      await load(db, { observations: [{ id: 'o2', on: '2025-09-01', ...noted }] })
      expect(await notedOn()).toEqual(['2025-09-01'])
      const seasons = await reckonSeasons(db, { ...asked, on: '2025-07-31' })
      expect(seasons.seasons).toEqual([2025])
      expect(seasons.zones).toEqual([{ toldSeasons: [2025], coldSeasons: [2025] }])
      expect(seasons.stretches).toHaveLength(80)
      // Nothing is picked before August, and no earlier season nor usual yield tells what to expect.
      expect(seasons.outlook).toMatchObject({ season: 2025, pickedKg: 0, expectedKg: null, unknown: ['tomato'] })
      const later = await reckonSeasons(db, { ...asked, season: 2026, on: '2026-08-01' })
      expect(later.seasons).toEqual([2025])
      const points = await reckonPoints(await readPoints(db, { ...asked, cellM: 1 }), 'kriging')
      expect(points.surface!.points).toBe(80)
      expect(points.surface!.values.length).toBe((await reckonYield(db, { season: 2025 })).report.pieces.pieces.length)
      // The weave of 6 m holds one planting of 4 m whole and of the next a half, which is enough.
      const { comparisons } = await reckonComparisons(db, asked)
      expect(
        comparisons.map(({ by, a, b, verdict }) => [by, a.name, a.plantings, b.name, b.plantings, verdict]),
      ).toEqual([['system', 'Net', 3, 'String weave', 2, 'too little to tell']])
      const tomato = await reckonYield(db, { season: 2025, of: { family: 'Solanaceae' } })
      expect(tomato.report.totalKg).toBeCloseTo(report.totalKg, 9)
      await expect(reckonYield(db, { season: 2025, of: { crop: 'moonflower' } })).rejects.toThrow(RangeError)

      const plane = planeAbout(origin)
      const picked = report.totalKg
      const onMap = yieldOnMap(reckoned, plane)
      expect(onMap.bedsPicked).toBe(10)
      expect(sum(onMap.cells.map((cell) => cell.properties.kg)) / picked).toBeCloseTo(1, 9)
      expect(onMap.zones.map((zone) => [zone.id, zone.beds[0]])).toEqual([['zone 1', 'b0']])
      expect(onMap.stretches).toHaveLength(80)
      expect(onMap.stretches[0]!.properties.standing!.z).toBeLessThan(-2)
      const surface = surfaceGeoJson(report, plane)
      expect(sum(surface.features.map((cell) => cell.properties.kg)) / picked).toBeCloseTo(1, 9)
      const longitudes = surface.features
        .flatMap(({ geometry }) => geometry.coordinates.flat(3) as number[])
        .filter((_, k) => k % 2 === 0)
      expect(Math.max(...longitudes.map(Math.abs))).toBeLessThanOrEqual(180)
      // The first cell holds the bed's south-west corner, where the farm's plane has its origin.
      const [lon, lat] = (
        surface.features[0]!.geometry.coordinates as Position[][][] | Position[][]
      )[0]![0]! as Position
      const [east, north] = plane.toMetres([lon! < 0 && origin[0] > 0 ? lon! + 360 : lon!, lat!])
      expect(Math.hypot(east, north)).toBeLessThan(1)
    })
  })
})
