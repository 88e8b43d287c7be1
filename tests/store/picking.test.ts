import { parse } from 'csv-parse/sync'
import geodesic from 'geographiclib-geodesic'
import { beforeAll, describe, expect, it } from 'vitest'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import { nearPlantings } from '../../geo/picking/nearPlantings.ts'
import { pickHabits } from '../../geo/picking/pickHabits.ts'
import { pickRhythm } from '../../geo/picking/pickRhythm.ts'
import { seasonPicking } from '../../geo/picking/seasonPicking.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { emptyFarm } from './emptyFarm.ts'
import { load } from './farmOf.ts'
import { SERVER_ABSENT, useDatabase } from './harness.ts'

const ORIGIN = [15, 46] as const
const DAY_MS = 86_400_000
const dayFrom = (first: string, days: number) =>
  new Date(Date.parse(first) + Math.floor(days) * DAY_MS).toISOString().slice(0, 10)

const box = (x: number, y: number, w: number, h: number) => ({
  type: 'Polygon' as const,
  coordinates: [
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
      [x, y],
    ],
  ],
})
const line = (x: number, y: number, w: number) => ({
  type: 'LineString' as const,
  coordinates: [
    [x, y],
    [x + w, y],
  ],
})

const BEDS = ['b0', 'b1', 'b2']
const bedLat = (n: number) => 46.0002 + n * 0.0001
const GROUND = {
  farm: [{ id: 'farm', name: 'Invented', units: 'metric', season_start_month: 3 }],
  crops: ['tomato', 'leek', 'kale'].map((id) => ({ id, name: id, family: 'any' })),
  varieties: ['tomato', 'leek', 'kale'].map((crop) => ({ id: `${crop} v`, crop, name: `${crop} v` })),
  containers: [
    { id: 'c1', unit: 'crate', kg: 9.3, crop: null },
    { id: 'c2', unit: 'crate', kg: 11.7, crop: 'tomato' },
  ],
  fields: [{ id: 'f', name: 'Field', geom: box(14.999, 45.999, 0.004, 0.004) }],
  beds: BEDS.map((id, n) => ({ id, field: 'f', name: id, geom: box(15.0002, bedLat(n), 0.0006, 0.00002) })),
  rows: BEDS.map((bed, n) => ({
    id: `r${n}`,
    bed,
    side: 'north edge',
    geom: line(15.0002, bedLat(n) + 0.00001, 0.0006),
  })),
  plantings: [
    { id: 'p0', row: 'r0', variety: 'tomato v', from_m: 0, to_m: 20, set_out: '2025-04-01', cleared: '2025-11-01' },
    { id: 'p1', row: 'r1', variety: 'tomato v', set_out: '2025-04-01' },
    { id: 'p2', bed: 'b2', variety: 'leek v', set_out: '2025-05-01' },
    { id: 'p3', row: 'r0', variety: 'kale v', from_m: 20, to_m: 40, set_out: '2025-06-01' },
  ],
}
const CROP: Readonly<Record<string, string>> = { p0: 'tomato', p1: 'tomato', p2: 'leek', p3: 'kale' }
const BED: Readonly<Record<string, string>> = { p0: 'b0', p1: 'b1', p2: 'b2', p3: 'b0' }

interface Told {
  readonly id: string
  readonly on: string
  readonly planting: string | null
  readonly bed: string | null
  readonly lon: number | null
  readonly lat: number | null
  readonly quantity: number
  readonly unit: string
  readonly kg_per_unit: number
  readonly picker: string | null
}
interface Given {
  readonly id: string
  readonly pick: string
  readonly to: string
  readonly part: number
  readonly use: string | null
}

/** A season as it might come: picks of plantings, beds and spots, their parts in fractions that do not add up in binary. */
function randomSeason(seed: number): { picks: Told[]; shares: Given[] } {
  const random = seededRandom(seed)
  const of = <T>(all: readonly T[]): T => all[Math.floor(random() * all.length)]!
  const picks: Told[] = []
  const shares: Given[] = []
  const count = 20 + Math.floor(random() * 60)
  for (let i = 0; i < count; i++) {
    const where = of(['p0', 'p1', 'p2', 'p3', 'p0', 'bed', 'spot', 'wild'])
    const planting = where in CROP ? where : null
    const unit = of(['kg', 'lb', 'crate'])
    const crate = planting !== null && CROP[planting] === 'tomato' ? 11.7 : 9.3
    const id = `k${i}`
    picks.push({
      id,
      on: dayFrom('2025-06-01', random() * 150),
      planting,
      bed: where === 'bed' ? of(BEDS) : null,
      lon: where === 'spot' ? 15.0005 : where === 'wild' ? 15.002 : null,
      lat: where === 'spot' ? bedLat(1) + 0.00001 : where === 'wild' ? 46.002 : null,
      quantity: Math.ceil(random() * 50) / 4,
      unit,
      kg_per_unit: unit === 'kg' ? 1 : unit === 'lb' ? 0.45359237 : crate,
      picker: of(['Ana', 'Bor', 'Cene', null]),
    })
    const parts = of([[], [1], [1 / 3, 1 / 3, 1 / 3], [0.1, 0.2, 0.7], [0.25, 0.6], [0.5]])
    parts.forEach((part, n) => {
      shares.push({
        id: `${id} ${n}`,
        pick: id,
        to: ['Ana', 'Bor', 'Market'][n]!,
        part,
        use: of(['kitchen', 'market', null]),
      })
    })
  }
  return { picks, shares }
}

const kgOf = (pick: Told) => pick.quantity * pick.kg_per_unit
const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0)
/** kg by a key, by going through the picks one after another. */
function tally<T>(all: readonly T[], key: (one: T) => string, kg: (one: T) => number): Record<string, number> {
  const found: Record<string, number> = {}
  for (const one of all) found[key(one)] = (found[key(one)] ?? 0) + kg(one)
  return found
}
function expectSame(got: Record<string, number>, wanted: Record<string, number>): void {
  expect(Object.keys(got).sort()).toEqual(Object.keys(wanted).sort())
  for (const [key, kg] of Object.entries(wanted)) expect([key, got[key]]).toEqual([key, expect.closeTo(kg, 9)])
}
const bedOf = (pick: Told) => pick.bed ?? (pick.planting ? BED[pick.planting]! : pick.lon === 15.0005 ? 'b1' : 'none')

describe.skipIf(SERVER_ABSENT)('a season of picks', () => {
  const held = useDatabase(ORIGIN)
  const FROM = '2025-03-01'
  const TO = '2025-09-20'

  // The oracle goes through the records one after another, without a database (X, written here).
  it.each([1, 2, 3, 4])('sums by week, crop, bed and person as brute force does; seed %d', async (seed) => {
    const { picks, shares } = randomSeason(seed)
    await emptyFarm(held.db)
    await load(held.db, { ...GROUND, picks: picks.map((p) => ({ ...p })), shares: shares.map((s) => ({ ...s })) })
    const told = await seasonPicking(held.db, { from: FROM, to: TO })
    const within = picks.filter(({ on }) => on >= FROM && on <= TO)
    expect(within.length).toBeGreaterThan(5)
    expect(within.length).toBeLessThan(picks.length)

    const week = (on: string) => dayFrom(FROM, Math.floor((Date.parse(on) - Date.parse(FROM)) / DAY_MS / 7) * 7)
    expectSame(
      tally(
        told.weeks,
        (w) => `${w.crop} ${w.week}`,
        (w) => w.kg,
      ),
      tally(within, (p) => `${p.planting ? CROP[p.planting] : null} ${week(p.on)}`, kgOf),
    )
    expectSame(
      tally(
        told.beds,
        (b) => b.bed ?? 'none',
        (b) => b.kg,
      ),
      tally(within, bedOf, kgOf),
    )
    expectSame(
      tally(
        told.people,
        (p) => String(p.picker),
        (p) => p.kg,
      ),
      tally(within, (p) => String(p.picker), kgOf),
    )
    const parts = within.flatMap((pick) => {
      const given = shares.filter((share) => share.pick === pick.id)
      const left = 1 - sum(given.map(({ part }) => part))
      return [
        ...given.map(({ to, use, part }) => ({ key: `${pick.picker} ${to} ${use}`, kg: part * kgOf(pick) })),
        ...(left > 1e-9 ? [{ key: `${pick.picker} null null`, kg: left * kgOf(pick) }] : []),
      ]
    })
    expectSame(
      tally(
        told.forWhom,
        (f) => `${f.picker} ${f.to} ${f.use}`,
        (f) => f.kg,
      ),
      tally(
        parts,
        (p) => p.key,
        (p) => p.kg,
      ),
    )
    expect(sum(told.forWhom.map(({ kg }) => kg))).toBeCloseTo(sum(within.map(kgOf)), 8)
    expect(told.picks.map(({ id }) => id).sort()).toEqual(within.map(({ id }) => id).sort())
  })

  it.each([11, 12])('has shares that sum to each pick, in the database and in the archive; seed %d', async (seed) => {
    const { picks, shares } = randomSeason(seed)
    await emptyFarm(held.db)
    await load(held.db, { ...GROUND, picks: picks.map((p) => ({ ...p })), shares: shares.map((s) => ({ ...s })) })
    const files = writeArchive(await readContent(held.db, new Map()))
    const table = (name: string): Record<string, string>[] =>
      parse(new TextDecoder().decode(files.get(name)), { columns: true, record_delimiter: '\r\n' })
    const inArchive = table('shares.csv')
    for (const pick of picks) {
      const given = shares.filter((share) => share.pick === pick.id)
      const whole = sum(given.map(({ part }) => part))
      const [inDatabase] = await held.db.rows<{ kg: number; given: number; left: number }>(
        `select k.kg, coalesce(sum(k.kg * s.part), 0) as given, k.kg * (1 - coalesce(sum(s.part), 0)) as left
         from picks k left join shares s on s.pick = k.id where k.id = $1 group by k.id`,
        [pick.id],
      )
      expect(inDatabase!.given + inDatabase!.left).toBeCloseTo(kgOf(pick), 9)
      const written = inArchive.filter((share) => share.pick === pick.id).map((share) => Number(share.part))
      expect(written).toEqual(given.map(({ part }) => part))
      expect(sum(written)).toBe(whole)
      expect(whole).toBeLessThanOrEqual(1 + 1e-9)
    }
    const again = readArchive(files)
    expect(again.faults).toEqual([])
    expect(again.content!.records.get('shares')!.map(({ part }) => part)).toEqual(shares.map(({ part }) => part))
  })

  it('keeps in the archive why a pick was put right or struck out', async () => {
    await emptyFarm(held.db)
    const corrections = [
      {
        id: 'm1',
        on: '2025-08-02',
        kind: 'picks',
        record: 'k1',
        deed: 'changed',
        reason: 'weighed, again',
        was: '15 kg',
        now: '1.5 kg',
      },
      {
        id: 'm2',
        on: '2025-08-03',
        kind: 'picks',
        record: 'gone',
        deed: 'removed',
        reason: 'told twice',
        was: '2 "crates"',
        now: null,
      },
    ]
    await load(held.db, { ...GROUND, corrections })
    const files = writeArchive(await readContent(held.db, new Map()))
    const again = readArchive(files)
    expect(again.faults).toEqual([])
    expect(again.content!.records.get('corrections')).toEqual(corrections.map((one) => ({ ...one, extra: {} })))
  })
})

describe.skipIf(SERVER_ABSENT)('what is due next', () => {
  const held = useDatabase(ORIGIN)
  const pick = (planting: string, on: string) => ({
    id: `${planting} ${on}`,
    planting,
    on,
    quantity: 1,
    unit: 'kg',
    kg_per_unit: 1,
  })
  beforeAll(() =>
    load(held.db, {
      ...GROUND,
      picks: [
        // Every 4, 4 and 10 days: the median is 4; 9 days since, so 5 over its time.
        ...['2025-07-01', '2025-07-05', '2025-07-09', '2025-07-19', '2025-07-19', '2025-09-30'].map((on) =>
          pick('p0', on),
        ),
        // Every 7 and 9 days: the median is 8; 2 days since.
        ...['2025-07-10', '2025-07-17', '2025-07-26'].map((on) => pick('p1', on)),
        ...['2025-07-02', '2025-07-03'].map((on) => pick('p2', on)),
      ].map((one, i) => ({ ...one, id: `k${i}` })),
    }),
  )

  // Worked by hand: medians of the intervals written beside the picks.
  it('stands first by how far it is over its own rhythm; with fewer than three pickings there is none', async () => {
    const told = await pickRhythm(held.db, { from: '2025-03-01', to: '2025-07-28' })
    expect(
      told.map(({ planting, pickDays, sinceDays, everyDays }) => [planting, pickDays, sinceDays, everyDays]),
    ).toEqual([
      ['p0', 4, 9, 4],
      ['p1', 3, 2, 8],
      ['p2', 2, 25, null],
      ['p3', 0, null, null],
    ])
  })

  it('tells only what stands on the day', async () => {
    const told = await pickRhythm(held.db, { from: '2025-03-01', to: '2025-12-01' })
    expect(told.map(({ planting }) => planting)).not.toContain('p0')
    expect(
      (await pickRhythm(held.db, { from: '2025-03-01', to: '2025-04-15' })).map(({ planting }) => planting),
    ).toEqual(['p0', 'p1'])
  })

  it('offers the plantings picked last, those that stand', async () => {
    const habits = await pickHabits(held.db, '2025-12-01')
    expect(habits.places.map(({ planting }) => planting)).toEqual(['p2', 'p1'])
    expect(habits.units).toContainEqual({ crop: 'leek', unit: 'kg' })
  })
})

describe.skipIf(SERVER_ABSENT)('what is due next by plantings of its kind', () => {
  const held = useDatabase(ORIGIN)
  const SEASON = { from: '2025-03-01', to: '2025-07-28' }
  const VARIETY: Readonly<Record<string, string>> = { a: 'red', b: 'red', c: 'red', d: 'blue', e: 'white', f: 'leek v' }
  const planting = (id: string, set_out = '2025-04-01', cleared: string | null = null) => ({
    id,
    bed: 'b2',
    variety: VARIETY[id] ?? id,
    set_out,
    cleared,
  })
  const told = async (
    pickedOn: Readonly<Record<string, readonly string[]>>,
    plantings: readonly ReturnType<typeof planting>[],
    firstPickDays: number | null = null,
  ) => {
    await emptyFarm(held.db)
    await load(held.db, {
      ...GROUND,
      crops: GROUND.crops.map((crop) => (crop.id === 'leek' ? { ...crop, first_pick_days: firstPickDays } : crop)),
      varieties: [...GROUND.varieties, ...['red', 'blue', 'white'].map((id) => ({ id, crop: 'tomato', name: id }))],
      plantings,
      picks: Object.entries(pickedOn).flatMap(([of, days]) =>
        days.map((on) => ({ id: `${of} ${on}`, planting: of, on, quantity: 1, unit: 'kg', kg_per_unit: 1 })),
      ),
    })
    return (await pickRhythm(held.db, SEASON)).map((one) => [one.planting, one.by, one.everyDays, one.overDays])
  }

  // Worked by hand. Of red: 6 and 8 days of a (its own median 7), 10 of b, 12 of c: 6, 8, 10, 12, the median 9.
  const RED = {
    a: ['2025-07-01', '2025-07-07', '2025-07-15'],
    b: ['2025-07-11', '2025-07-21'],
    c: ['2025-07-04', '2025-07-16'],
  }
  const abc = ['a', 'b', 'c'].map((id) => planting(id))

  it('is its own rhythm first, then the variety’s, then the crop’s; what is most over stands first, whosever it is', async () => {
    // d and e: one picking each, 18 and 5 days since, and no span of their varieties'; the crop's are red's.
    const more = { ...RED, d: ['2025-07-10'], e: ['2025-07-23'] }
    expect(await told(more, [...abc, planting('d'), planting('e'), planting('f')])).toEqual([
      ['d', 'crop', 9, 9],
      ['a', 'own', 7, 6],
      ['c', 'variety', 9, 3],
      ['b', 'variety', 9, -2],
      ['e', 'crop', 9, -4],
      ['f', null, null, null],
    ])
  })

  it('counts what was cleared, and no season before; nothing that was not picked this season is told by others', async () => {
    const before = { ...RED, d: ['2024-07-01', '2024-07-02'], b: ['2024-07-01', '2024-07-02', ...RED.b] }
    const cleared = [planting('a', '2025-04-01', '2025-07-20'), planting('b', '2024-04-01'), planting('c')]
    expect(await told(before, [...cleared, planting('d', '2024-04-01')])).toEqual([
      ['c', 'variety', 9, 3],
      ['b', 'variety', 9, -2],
      ['d', null, null, null],
    ])
  })

  it('takes four spans at the least, of two plantings at the least', async () => {
    expect(await told({ b: RED.b, c: RED.c }, abc)).toEqual([
      ['c', null, null, null],
      ['b', null, null, null],
      ['a', null, null, null],
    ])
    const ofOne = { a: ['2025-07-01', '2025-07-05', '2025-07-09', '2025-07-13', '2025-07-17'], b: ['2025-07-20'] }
    expect(await told(ofOne, abc)).toEqual([
      ['a', 'own', 4, 7],
      ['b', null, null, null],
      ['c', null, null, null],
    ])
  })

  it('is the crop’s usual first pick where it was never picked, and that was not due in a season before', async () => {
    const leeks = [{ ...planting('f', '2025-04-29') }, { ...planting('old', '2024-04-29'), variety: 'leek v' }]
    // 29 April and 80 days: 18 July, ten days before the day looked at.
    expect(await told({}, leeks, 80)).toEqual([
      ['f', 'first pick', null, 10],
      ['old', null, null, null],
    ])
    expect(await told({}, leeks, 100)).toEqual([
      ['f', 'first pick', null, -10],
      ['old', null, null, null],
    ])
    // Picked once, it is past that.
    expect(await told({ f: ['2025-07-20'] }, leeks, 80)).toEqual([
      ['f', null, null, null],
      ['old', null, null, null],
    ])
  })
})

describe.skipIf(SERVER_ABSENT)('the nearest plantings', () => {
  const held = useDatabase(ORIGIN)
  beforeAll(() => load(held.db, GROUND))

  it('are by distance as geodesics have it, and only those that stand on the day', async () => {
    const at = [15.0005, 46.00023] as const
    const near = await nearPlantings(held.db, at, '2025-07-01', 9)
    expect(near.map(({ planting }) => planting)).toEqual(['p3', 'p0', 'p1', 'p2'])
    // X: geographiclib-geodesic 2.2, the least of the geodesics to places every centimetre or so along each stretch.
    const ends: Readonly<Record<string, readonly [number, number, number]>> = {
      p1: [bedLat(1) + 0.00001, 15.0002, 15.0008],
      p2: [bedLat(2) + 0.00001, 15.0002, 15.0008],
    }
    for (const [planting, [lat, west, east]] of Object.entries(ends)) {
      let least = Number.POSITIVE_INFINITY
      for (let i = 0; i <= 4000; i++) {
        const lon = west + ((east - west) * i) / 4000
        least = Math.min(least, geodesic.Geodesic.WGS84.Inverse(at[1], at[0], lat, lon).s12!)
      }
      expect(near.find((one) => one.planting === planting)!.distanceM).toBeCloseTo(least, 3)
    }
    expect((await nearPlantings(held.db, at, '2025-05-15', 9)).map(({ planting }) => planting)).toEqual([
      'p0',
      'p1',
      'p2',
    ])
    expect(await nearPlantings(held.db, at, '2025-07-01', 2)).toHaveLength(2)
  })

  it('are found from far away too', async () => {
    const [first] = await nearPlantings(held.db, [15.05, 46.0003], '2025-07-01', 1)
    expect(first!.distanceM).toBeGreaterThan(3000)
  })
})
