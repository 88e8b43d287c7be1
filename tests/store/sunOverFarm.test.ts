import { getPosition } from 'suncalc'
import { describe, expect, it } from 'vitest'
import { blackWalnutCrownM } from '../../geo/measure/canopy.ts'
import { canopyYears } from '../../geo/measure/canopyYears.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { bedShade } from '../../geo/sun/bedShade.ts'
import { readCasters } from '../../geo/sun/readCasters.ts'
import { type Brief, load } from './farmOf.ts'
import { SERVER_ABSENT, withPlane } from './harness.ts'

const ORIGIN: LonLat = [15.3, 46.8]
const plane = planeAbout(ORIGIN)
const positions = (...flat: number[]) =>
  Array.from({ length: flat.length / 2 }, (_, k) => [...plane.toLonLat([flat[2 * k]!, flat[2 * k + 1]!])])
const area = (x: number, y: number, w: number, h: number) => ({
  type: 'Polygon' as const,
  coordinates: [positions(x, y, x + w, y, x + w, y + h, x, y + h, x, y)],
})
const line = (...flat: number[]) => ({ type: 'LineString' as const, coordinates: positions(...flat) })
const point = (x: number, y: number) => ({ type: 'Point' as const, coordinates: positions(x, y)[0]! })

/** An invented farm: a bed north of a very long fence, another far from all; a net of one summer; a linden and a young walnut. */
const FARM: Brief = {
  farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 3 }],
  fields: [{ id: 'f', name: 'Field', geom: area(-600, -5, 1200, 2000) }],
  beds: [
    { id: 'a', name: 'A', field: 'f', geom: area(-5, 1, 10, 1) },
    { id: 'b', name: 'B', field: 'f', geom: area(-5, 1000, 10, 1) },
  ],
  structures: [
    { id: 's', kind: 'fence', height_m: 2, geom: line(-500, 0, 500, 0) },
    { id: 'u', kind: 'windbreak', name: 'Hedge', geom: line(-500, -4, 500, -4) },
    { id: 'w', kind: 'path', geom: line(-500, -3, 500, -3) },
  ],
  systems: [
    { id: 'net', name: 'Net', height_m: 1.5 },
    { id: 'string', name: 'String' },
  ],
  supports: [
    {
      id: 'n',
      system: 'net',
      put_up: '2026-05-01',
      taken_down: '2026-10-01',
      geom: line(400, 800, 410, 800, 410, 805),
    },
    { id: 't', system: 'string', geom: line(400, 700, 410, 700) },
  ],
  trees: [
    { id: 'l', species: 'linden', canopy_radius_m: 4, measured: '2025-06-01', geom: point(0, 1004) },
    { id: 'j', species: 'Juglans nigra', planted: '2026-01-01', height_m: 1, geom: point(0, 996) },
  ],
}

describe.skipIf(SERVER_ABSENT)('sun and trees over a farm', () => {
  it('tells what throws shadows on a day, with the heights that are known or taken', () =>
    withPlane(ORIGIN, async (db) => {
      await load(db, FARM)
      const summer = await readCasters(db, '2026-07-01')
      expect(summer.supports.map((one) => one.shape === 'wall' && one.heightM)).toEqual([1.5, 1.5, 1.8])
      expect((await readCasters(db, '2026-11-01')).supports).toHaveLength(1)
      expect(summer.assumedSupports).toBe(1)
      expect(summer.withoutHeight).toEqual(['Hedge'])
      expect(summer.structures).toMatchObject([{ shape: 'wall', heightM: 2 }])
    }))

  it('tells the sun that beds lose as an endless wall takes it, minute by minute', () =>
    withPlane(ORIGIN, async (db) => {
      await load(db, { ...FARM, trees: [] })
      const told = await bedShade(db, ORIGIN, { from: '2026-09-01', to: '2026-09-30', skip: 0, take: 10 })
      // Hand-worked: north of an endless wall running east–west, h high, a spot d from it lies in shadow while
      // h · cos(azimuth from south) / tan(altitude) ≥ d. Every minute of every day; spots every 2 cm of the bed's width.
      let [sun, lost] = [0, 0]
      const rad = Math.PI / 180
      for (let ms = Date.parse('2026-09-01'); ms < Date.parse('2026-10-01'); ms += 60_000) {
        const { altitude, azimuth } = getPosition(new Date(ms), ORIGIN[1], ORIGIN[0])
        if (altitude < 5) continue
        sun += 1 / 60
        const far = (2 * Math.cos((azimuth - 180) * rad)) / Math.tan(altitude * rad)
        lost += Math.min(1, Math.max(0, far - 1)) / 60
      }
      expect(told.sunHours / sun).toBeCloseTo(1, 1)
      expect(Math.abs(told.beds[0]!.lostHours / lost - 1)).toBeLessThan(0.02)
      expect(told.beds[0]!.byStructures).toBe(told.beds[0]!.lostHours)
      expect(told.beds[1]).toMatchObject({ bed: 'b', lostHours: 0 })
      const slice = await bedShade(db, ORIGIN, { from: '2026-09-01', to: '2026-09-30', skip: 1, take: 1 })
      expect(slice.beds.map(({ bed }) => bed)).toEqual(['b'])
    }))

  it('tells the year in which a canopy comes over a bed, and what is only assumed', () =>
    withPlane(ORIGIN, async (db) => {
      await load(db, FARM)
      const told = await canopyYears(db, '2026-06-01', 20)
      const [linden, walnut] = [told.under.find((u) => u.tree === 'l')!, told.under.find((u) => u.tree === 'j')!]
      expect(linden).toEqual({ bed: 'b', tree: 'l', canopyFrom: 2026, reachFrom: null })
      expect(told.trees.map(({ id, assumed }) => [id, assumed])).toEqual([
        ['l', true],
        ['j', false],
      ])
      // Trunk to bed 4 m; the crown's diameter by the published curve at its age on 1 June.
      const radius = (year: number) =>
        blackWalnutCrownM((Date.parse(`${year}-06-01`) - Date.parse('2026-01-01')) / (365.2425 * 86_400_000)) / 2
      const first = told.years.find((year) => radius(year) > 4)!
      expect(first).toBeGreaterThan(2027)
      expect(walnut.canopyFrom).toBe(first)
      expect(walnut.reachFrom! <= first).toBe(true)
    }))
})
