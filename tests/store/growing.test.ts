import { describe, expect, it } from 'vitest'
import { readGround } from '../../geo/growing/readGround.ts'
import { standsOf } from '../../geo/growing/stand.ts'
import { allWarnings } from '../../geo/growing/warnings/allWarnings.ts'
import type { Warning } from '../../geo/growing/warnings/warning.ts'
import { warningsAhead } from '../../geo/growing/warningsAhead.ts'
import { clearance } from '../../geo/measure/clearance.ts'
import { measure } from '../../geo/measure/measure.ts'
import type { AnyRecord } from '../../geo/model/kind.ts'
import type { Metres } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import type { Edit } from '../../geo/store/edit.ts'
import { dayOf } from '../unit/growing/oracle.ts'
import { randomGround } from '../unit/growing/randomGround.ts'
import { emptyFarm } from './emptyFarm.ts'
import { load } from './farmOf.ts'
import { SERVER_ABSENT, useDatabase } from './harness.ts'

const ORIGIN = [15.3, 46.8] as const
const plane = planeAbout(ORIGIN)
const lonLat = (at: Metres) => [...plane.toLonLat(at)]

/** A random farm as records. What was told by its bed alone takes the whole of it, since a bed in the database has no first end. */
function recordsOf(seed: number) {
  const { ground } = randomGround(seed)
  const plantings = ground.plantings.map((one) => (one.row === null ? { ...one, from_m: null, to_m: null } : one))
  const line = (of: readonly Metres[]) => ({ type: 'LineString' as const, coordinates: of.map(lonLat) })
  const outline = ([a, b]: readonly Metres[], half: number, more = 0) => {
    const m = Math.hypot(b![0] - a![0], b![1] - a![1])
    const [ux, uy] = [(b![0] - a![0]) / m, (b![1] - a![1]) / m]
    const corner = (along: number, off: number) =>
      lonLat([a![0] + ux * along - uy * off, a![1] + uy * along + ux * off])
    const ring = [corner(-more, -half), corner(m + more, -half), corner(m + more, half), corner(-more, half)]
    return { type: 'Polygon' as const, coordinates: [[...ring, ring[0]!]] }
  }
  const beds = [...ground.beds.values()]
  const records = {
    farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: ground.seasonStartMonth }],
    crops: [...ground.crops.values()],
    varieties: [...ground.varieties.values()],
    systems: [{ id: 's', name: 'Posts' }],
    fields: [{ id: 'field', name: 'Field', geom: outline(beds[0]!.middle, 8, 3) }],
    beds: beds.map(({ id, middle }) => ({ id, field: 'field', name: id, geom: outline(middle, 0.6) })),
    rows: [...ground.rows.values()].map(({ id, bed, line: of }) => ({ id, bed, geom: line(of) })),
    trees: ground.sources.map(({ tree, at }) => ({
      ...tree,
      geom: { type: 'Point' as const, coordinates: lonLat(at) },
    })),
    supports: ground.supports
      .filter(({ put_up, taken_down }) => !(put_up && taken_down && taken_down < put_up))
      .map(({ id, put_up, taken_down, line: of }) => ({ id, system: 's', put_up, taken_down, geom: line(of) })),
    plantings,
    picks: [...ground.picked].flatMap(([planting, days]) =>
      days.map((on, i) => ({ id: `${planting} ${i}`, on, planting, quantity: 1, unit: 'kg', kg_per_unit: 1 })),
    ),
    dressings: ground.manure,
  }
  const supports = ground.supports.filter(({ id }) => records.supports.some((one) => one.id === id))
  return { records, ground: { ...ground, plantings, supports } }
}

/** A warning to the centimetre; where it counts along a bed's middle is left out, since that may run either way in the database. */
function told(warning: Warning, rowOf: (planting: string) => string | null): string {
  return JSON.stringify(warning, (key, value) =>
    key === 'shared' && rowOf(warning.planting) === null
      ? undefined
      : typeof value === 'number'
        ? Math.round(value * 100) / 100 + 0
        : value,
  )
}

describe.skipIf(SERVER_ABSENT)('plantings in the database', () => {
  const held = useDatabase(ORIGIN)

  it('are warned of as the same plantings in memory are, whole or bed by bed', async () => {
    for (const seed of [1, 2, 3]) {
      const { records, ground } = recordsOf(seed)
      await emptyFarm(held.db)
      await load(held.db, records as never)
      const on = dayOf(300 * seed)
      const soon = dayOf(300 * seed + 365)
      const expected = allWarnings(
        ground,
        on,
        ({ planting }) => (planting.cleared === null || planting.cleared > on) && planting.set_out < soon,
      ).filter((one) => one.kind !== 'manure' || one.notBefore > on || one.harvest?.how === 'picked')
      const rowOf = (id: string) => ground.plantings.find((one) => one.id === id)!.row
      const texts = (warnings: readonly Warning[]) => warnings.map((one) => told(one, rowOf)).sort()
      const whole = await warningsAhead(held.db, on, null)
      expect(texts(whole)).toEqual(texts(expected))
      expect(whole.length).toBeGreaterThan(10)
      const byBed = [...(await warningsAhead(held.db, on, ['bed 0'])), ...(await warningsAhead(held.db, on, ['bed 1']))]
      expect(texts(byBed)).toEqual(texts(whole))
    }
  })

  it('are within a walnut’s reach where clearance has it, and unheld as measure has it', async () => {
    let [sensitive, bare] = [0, 0]
    for (const seed of [4, 5, 6, 7, 8, 9]) {
      const { records } = recordsOf(seed)
      await emptyFarm(held.db)
      await load(held.db, records as never)
      const ground = await readGround(held.db, null)
      const on = dayOf(200 * seed)
      const standing = (warning: Warning) => {
        const { set_out, cleared } = records.plantings.find(({ id }) => id === warning.planting)!
        return set_out <= on && (cleared === null || cleared > on)
      }
      const warnings = allWarnings(ground, on).filter(standing)
      const cropOf = new Map(standsOf(ground).map(({ planting, crop }) => [planting.id, crop.id]))
      const reached = new Set(
        warnings.flatMap((w) => {
          const removed = records.trees.find(({ id }) => w.kind === 'walnut' && id === w.tree)?.removed ?? null
          return w.kind === 'walnut' && w.from <= on && (removed === null || removed > on)
            ? [`${w.bed} ${w.tree} ${cropOf.get(w.planting)}`]
            : []
        }),
      )
      const clear = (await clearance(held.db, on)).flatMap(({ bed, tree, sensitive }) =>
        sensitive.map((crop) => `${bed} ${tree} ${crop}`),
      )
      expect([...reached].sort()).toEqual(clear.sort())
      sensitive += clear.length
      for (const { id, unheld_m } of (await measure(held.db, on)).beds) {
        const unheldM = warnings.reduce((sum, w) => (w.kind === 'unheld' && w.bed === id ? sum + w.unheldM : sum), 0)
        // What is less than 10 cm is not warned of.
        expect(unheld_m - unheldM).toBeGreaterThan(-1e-6)
        expect(unheld_m - unheldM).toBeLessThan(0.3)
        bare += unheldM
      }
    }
    expect(sensitive).toBeGreaterThan(3)
    expect(bare).toBeGreaterThan(5)
  })

  it('are warned of before they are kept, with what they would do to those that are', async () => {
    const { records } = recordsOf(1)
    await emptyFarm(held.db)
    await load(held.db, { ...records, plantings: [], picks: [] } as never)
    const planting = (id: string, more: object): AnyRecord => ({
      ...{
        id,
        row: 'bed 0 0',
        bed: null,
        variety: 'v tomato',
        from_m: 0,
        to_m: 1,
        set_out: '2026-05-01',
        cleared: null,
      },
      ...{ plants: null, spacing_m: null, purpose: null, note: null, extra: {} },
      ...more,
    })
    const add = (record: AnyRecord): Edit => ({ do: 'add', kind: 'plantings', record })
    const claimsOf = async (edits: Edit[]) =>
      (await warningsAhead(held.db, '2026-05-01', ['bed 0'], edits)).flatMap((w) =>
        w.kind === 'claimed' ? [`${w.planting} with ${w.other.planting}`] : [],
      )
    const two = [add(planting('p', {})), add(planting('q', { from_m: 0.5, to_m: 2 }))]
    expect((await claimsOf(two)).sort()).toEqual(['p with q', 'q with p'])
    await load(held.db, { plantings: [planting('kept', {})] } as never)
    expect((await claimsOf([two[1]!])).sort()).toEqual(['kept with q', 'q with kept'])
    const moved: Edit = { do: 'change', kind: 'plantings', id: 'kept', to: { row: 'bed 1 0' } }
    expect(await claimsOf([two[1]!, moved])).toEqual([])
    expect(await claimsOf([two[1]!, { do: 'remove', kind: 'plantings', id: 'kept' }])).toEqual([])
    expect(await held.db.rows('select id from plantings')).toEqual([{ id: 'kept' }])
  })

  // By hand: potatoes touch the soil, so 120 days from 1 November, which end on 1 March.
  it('are warned of raw manure as long as its days to harvest run, and later where they were not kept', async () => {
    const { records } = recordsOf(1)
    await emptyFarm(held.db)
    const stays = { id: 'p', bed: 'bed 0', variety: 'v potato', set_out: '2023-05-01' }
    const pick = { id: 'k', on: '2024-06-01', planting: 'p', quantity: 1, unit: 'kg', kg_per_unit: 1 }
    const dressing = { id: 'd', on: '2025-11-01', bed: 'bed 0', material: 'manure', raw_manure: true }
    await load(held.db, { ...records, plantings: [stays], picks: [pick], dressings: [dressing] } as never)
    const told = async (on: string) =>
      (await warningsAhead(held.db, on, null)).flatMap((one) => (one.kind === 'manure' ? [one.harvest] : []))
    const goingOn = { on: '2025-11-01', how: 'going on' }
    expect(await told('2025-10-01')).toEqual([goingOn])
    expect(await told('2026-02-28')).toEqual([goingOn])
    expect(await told('2026-03-01')).toEqual([])
    await load(held.db, { picks: [{ ...pick, id: 'k2', on: '2026-02-20' }] } as never)
    expect(await told('2026-03-01')).toEqual([{ on: '2026-02-20', how: 'picked' }])
  })
})
