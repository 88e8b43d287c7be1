import { describe, expect, it } from 'vitest'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import { climbingStretches } from '../../geo/measure/held.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import type { Database } from '../../geo/store/database.ts'
import { applyEdits } from '../../geo/store/edit.ts'
import { heldByDay } from '../../geo/supports/heldByDay.ts'
import { heldThroughSeason } from '../../geo/supports/heldThroughSeason.ts'
import { standsInGround } from '../../geo/supports/partKind.ts'
import { runBill } from '../../geo/supports/runBill.ts'
import { supportsSeen } from '../../geo/supports/supportsSeen.ts'
import { supportsWear } from '../../geo/supports/supportsWear.ts'
import { systemsCompared } from '../../geo/supports/systemsCompared.ts'
import { reckonComparisons } from '../../geo/yield/compare/reckonComparisons.ts'
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
const SEASON = { from: '2025-03-01', to: '2026-02-28' }

/** An invented farm: a bed of two rows; a net behind one from June to October, a trellis that stands since 2022 behind half of the other. */
const FARM: Brief = {
  farm: [{ id: 'farm', name: 'Invented', units: 'us', season_start_month: 3 }],
  crops: [{ id: 'bean', name: 'Climbing bean', family: 'Fabaceae', climbs: true, support_after_days: 18 }],
  varieties: [{ id: 'v', crop: 'bean', name: 'Long' }],
  systems: [
    { id: 'net', name: 'Net', height_m: 1.5 },
    { id: 'wires', name: 'Wires', height_m: 1.5, lines: 3 },
  ],
  system_parts: [
    { id: 'p1', system: 'net', part: 'post', rule: '1 per 1.5 m + 1', unit_cost: 6 },
    { id: 'p2', system: 'net', part: 'net', rule: '1 m per m' },
    { id: 'p3', system: 'wires', part: 'end post', rule: '1 per end' },
    { id: 'p4', system: 'wires', part: 'line post', rule: '1 per 6 m - 1' },
  ],
  system_work: [{ id: 'w', system: 'net', work: 'put up', minutes_per_m: 5, when: 'putting up' }],
  stores: [{ id: 'st', part: 'post', count: 4, metres: null, note: null }],
  fields: [{ id: 'f', name: 'Field', geom: area(0, 0, 40, 40) }],
  beds: [{ id: 'b', field: 'f', name: 'Bed', geom: area(2, 2, 30, 1.4) }],
  rows: [
    { id: 'r1', bed: 'b', geom: line(2, 2.3, 32, 2.3) },
    { id: 'r2', bed: 'b', geom: line(2, 3.1, 32, 3.1) },
  ],
  supports: [
    {
      id: 's1',
      system: 'net',
      put_up: '2025-06-01',
      taken_down: '2025-10-01',
      permanent: false,
      geom: line(2, 2.1, 32, 2.1),
    },
    { id: 's2', system: 'wires', put_up: '2022-04-01', permanent: true, geom: line(2, 3.3, 17, 3.3) },
    // Away from all rows: two nets end to end, the later of which uses the post between them.
    { id: 's4', system: 'net', put_up: '2025-06-20', reuse_posts: 'same part', geom: line(8, 10, 14, 10) },
    { id: 's3', system: 'net', put_up: '2025-06-15', geom: line(2, 10, 8, 10) },
  ],
  structures: [
    { id: 'loose', kind: 'wooden post', geom: { type: 'Point', coordinates: positions(11.1, 10.1)[0] } },
    { id: 'shed', kind: 'shed', geom: { type: 'Point', coordinates: positions(12.5, 10)[0] } },
  ],
  support_work: [
    { id: 't1', support: 's1', on: '2025-06-01', work: 'put up', minutes: 90, note: null },
    { id: 't2', support: 's1', on: '2025-07-01', work: 'tend', minutes: 20, note: 'tied' },
    { id: 't3', support: 's1', on: '2025-08-01', work: 'tend', minutes: 10, note: null },
  ],
  observations: [
    { id: 'o1', on: '2025-07-04', kind: 'broken string', geom: { type: 'Point', coordinates: positions(10, 2)[0] } },
    { id: 'o2', on: '2025-07-05', kind: 'disease', geom: { type: 'Point', coordinates: positions(10, 2)[0] } },
    { id: 'o3', on: '2025-11-05', kind: 'torn net', geom: { type: 'Point', coordinates: positions(10, 2)[0] } },
    {
      id: 'o5',
      on: '2025-07-06',
      kind: 'crack',
      note: 'Soil cracked',
      geom: { type: 'Point', coordinates: positions(11, 2)[0] },
    },
    { id: 'o6', on: '2025-07-07', kind: 'wire snapped', geom: { type: 'Point', coordinates: positions(11, 2)[0] } },
    { id: 'o4', on: '2025-08-05', kind: 'leaning post', geom: { type: 'Point', coordinates: positions(12, 8)[0] } },
  ],
  plantings: [
    { id: 'a', row: 'r1', variety: 'v', set_out: '2025-05-10', cleared: '2025-09-20' },
    { id: 'c', row: 'r2', variety: 'v', set_out: '2025-05-20', cleared: null },
  ],
  picks: [{ id: 'k', on: '2025-08-01', planting: 'a', quantity: 45, unit: 'kg', kg_per_unit: 1 }],
}

const withFarm = <T>(work: (db: Database) => Promise<T>) =>
  withPlane(ORIGIN, async (db) => {
    await load(db, FARM)
    return work(db)
  })

describe.skipIf(SERVER_ABSENT)('what the sheet of supports is told', () => {
  it('stands as many posts along each run as its bill counts, on its line', () =>
    withFarm(async (db) => {
      const { runs, recipes, inStore, timed, yields } = await supportsSeen(db, '2025-07-01', SEASON, 3)
      expect(runs.map(({ id }) => id)).toEqual(['s1', 's2', 's4', 's3'])
      for (const run of runs) {
        const recipe = recipes.find(({ id }) => id === run.system)!
        const parts = runBill(run, recipe).parts.filter((_, n) => standsInGround(recipe.parts[n]!.kind))
        expect(parts.length).toBeGreaterThan(0)
        for (const { part, count } of parts)
          expect(run.posts.filter((post) => post.part === part).reduce((sum, post) => sum + post.count, 0)).toBe(count)
        for (const { at, atM } of run.posts) {
          const [x, y] = plane.toMetres(at)
          expect(x).toBeCloseTo((run.id === 's4' ? 8 : 2) + atM, 6)
          expect(y).toBeCloseTo({ s1: 2.1, s2: 3.3 }[run.id] ?? 10, 6)
        }
      }
      // 30 m by 1.5 m: 21; 15 m by 6 m: two ends and two between.
      // 6 m by 1.5 m: 5, and 4 where the first is that of the run before.
      expect(runs.map(({ posts }) => posts.length)).toEqual([21, 4, 4, 5])
      expect(runs[2]).toMatchObject({ postsThere: { post: 1 }, wouldServe: { samePart: 1, anyPost: 2 } })
      // Picked, but not cleared before 20 September: until then it tells nothing of other plantings.
      expect(yields.own).toEqual([])
      expect((await supportsSeen(db, '2025-09-20', SEASON, 3)).yields.own).toEqual([
        { crop: 'bean', variety: 'v', kg: 45, rowM: expect.closeTo(30, 6), counted: { kg: 0, plants: 0 } },
      ])
      // 45 kg of the 30 m of its row, all of which lies along the net.
      expect(runs[0]!.held).toMatchObject([{ planting: 'a', family: 'Fabaceae', pickedKg: expect.closeTo(45, 6) }])
      // 90 min to put up and 20 to tend 30 m by that day; the 10 min of August are not told yet.
      expect(timed.map(({ phase, minutesPerM }) => [phase, Number(minutesPerM.toFixed(6))])).toEqual([
        ['each season', 0.666667],
        ['putting up', 3],
      ])
      const act = { id: 'step', label: 'Posts', device: 'd', author: null, clock: '000000000000001-0000' }
      await applyEdits(db, act, [{ do: 'change', kind: 'supports', id: 's4', to: { reuse_posts: 'any post' } }])
      const again = (await supportsSeen(db, '2025-07-01', SEASON, 3)).runs[2]!
      const net = recipes.find(({ id }) => id === 'net')!
      expect(again.posts.map(({ atM }) => Number(atM.toFixed(6)))).toEqual([1.5, 4.5, 6])
      expect(runBill(again, net).parts[0]).toMatchObject({ part: 'post', count: 3, cost: 18 })
      expect(inStore).toEqual([{ id: 'st', part: 'post', count: 4, metres: null, note: null }])
    }))

  // By hand: on 16 June the net of the 15th stands; that of the 20th will use its last post and needs four more.
  it('tells what is put up later as it will stand on its own day', () =>
    withFarm(async (db) => {
      const { runs, planned } = await supportsSeen(db, '2025-06-16', SEASON, 3)
      expect(runs.map(({ id }) => id)).toEqual(['s1', 's2', 's3'])
      expect(planned).toMatchObject([{ id: 's4', putUp: '2025-06-20', postsThere: { post: 1 } }])
      expect(planned[0]!.posts.map(({ atM }) => Number(atM.toFixed(6)))).toEqual([1.5, 3, 4.5, 6])
      const earlier = await supportsSeen(db, '2025-05-15', SEASON, 3)
      expect(earlier.planned.map(({ id, posts }) => [id, posts.length])).toEqual([
        ['s1', 21],
        ['s3', 5],
        ['s4', 4],
      ])
      // The beans of that season count for what will hold them.
      expect(earlier.planned[0]!.held).toMatchObject([{ planting: 'a', heldM: expect.closeTo(30, 6) }])
      expect((await supportsSeen(db, '2025-12-01', SEASON, 3)).planned).toEqual([])
    }))

  it('holds row through the season as it does on each day asked for by itself', () =>
    withFarm(async (db) => {
      const pieces = await heldThroughSeason(db, SEASON)
      expect(pieces.every(({ afterDays, field }) => afterDays === 18 && field === 'f')).toBe(true)
      const steps = heldByDay(pieces)
      expect(steps.map(({ on }) => on)).toEqual(['2025-05-10', '2025-05-20', '2025-06-01', '2025-09-20'])
      for (const step of steps) {
        const day = await climbingStretches(db, step.on)
        expect(step.climbingM).toBeCloseTo(
          day.reduce((sum, one) => sum + one.lengthM, 0),
          9,
        )
        expect(step.heldM).toBeCloseTo(
          day.reduce((sum, one) => sum + one.heldM, 0),
          9,
        )
      }
    }))

  it('counts what was seen broken to the run that stood nearest', () =>
    withFarm(async (db) => {
      const runs = await supportsWear(db, '2025-12-01', 3)
      expect(
        runs.map(({ id, seasons, breakages }) => [id, seasons, breakages.map(({ observation }) => observation)]),
      ).toEqual([
        ['s1', 1, ['o1', 'o6']],
        // The torn net was seen when the net was down, 1.3 m from the trellis.
        ['s2', 4, ['o3']],
        ['s4', 1, []],
        ['s3', 1, []],
      ])
    }))

  // By hand: five fifths of a row along the net gave 0.8 kg a metre, five along the trellis 3 kg. They are one bed, twice.
  it('sets systems against each other as the Yield sheet does: parts of one row are no proof', () =>
    withPlane(ORIGIN, async (db) => {
      const parts = Array.from({ length: 10 }, (_, n) => ({
        id: `p${n}`,
        row: n < 5 ? 'r1' : 'r2',
        kg: n < 5 ? 4.8 : 9,
      }))
      await load(db, {
        ...FARM,
        plantings: parts.map(({ id, row }, n) => {
          const [from, longM] = row === 'r1' ? [n * 6, 6] : [(n - 5) * 3, 3]
          const days = { set_out: '2025-05-10', cleared: '2025-09-20' }
          return { id, row, variety: 'v', from_m: from, to_m: from + longM, ...days }
        }),
        picks: parts.map(({ id, kg }) => ({
          id: `k${id}`,
          on: '2025-08-01',
          planting: id,
          quantity: kg,
          unit: 'kg',
          kg_per_unit: 1,
        })),
      })
      const told = await systemsCompared(db, 2025)
      expect(told.seasons).toEqual([2025])
      expect(told.comparisons).toMatchObject([
        {
          by: 'system',
          a: { name: 'Wires', plantings: 5, beds: 1, rate: expect.closeTo(3, 6) },
          b: { name: 'Net', plantings: 5, beds: 1, rate: expect.closeTo(0.8, 6) },
          told: null,
          verdict: 'too little to tell',
        },
      ])
      const { comparisons } = await reckonComparisons(db, { season: 2025, seasons: [2025], of: null })
      expect(told.comparisons).toEqual(comparisons.filter(({ by }) => by === 'system'))
      expect(comparisons.length).toBeGreaterThan(told.comparisons.length)
    }))

  it('keeps what is in store and a crop’s days through the archive, and changes nothing but the units when they are switched', () =>
    withFarm(async (db) => {
      const files = async () => writeArchive(await db.transaction((tx) => readContent(tx, new Map())))
      const text = (of: ReadonlyMap<string, Uint8Array>, name: string) => new TextDecoder().decode(of.get(name))
      const before = await files()
      expect(text(before, 'stores.csv')).toBe('id,part,count,metres,note\r\nst,post,4,,\r\n')
      expect(text(before, 'support_work.csv')).toBe(
        'id,support,on,work,minutes,note\r\nt1,s1,2025-06-01,put up,90,\r\nt2,s1,2025-07-01,tend,20,tied\r\nt3,s1,2025-08-01,tend,10,\r\n',
      )
      const read = readArchive(before)
      expect(read.faults).toEqual([])
      const again = writeArchive(read.content!)
      for (const [name, bytes] of before) expect(text(again, name), name).toBe(new TextDecoder().decode(bytes))
      const act = { id: 'step', label: 'Units', device: 'd', author: null, clock: '000000000000001-0000' }
      await applyEdits(db, act, [{ do: 'change', kind: 'farm', id: 'farm', to: { units: 'metric' } }])
      const after = await files()
      for (const [name, bytes] of before)
        if (name !== 'farm.json') expect(text(after, name), name).toBe(new TextDecoder().decode(bytes))
    }))
})
