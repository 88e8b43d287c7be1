import { describe, expect, it } from 'vitest'
import { historyOf } from '../../../geo/growing/bedHistory.ts'
import { copySeason } from '../../../geo/growing/copySeason.ts'
import { addYears } from '../../../geo/growing/days.ts'
import type { Ground } from '../../../geo/growing/ground.ts'
import { growingSeason } from '../../../geo/growing/growingSeason.ts'
import { sharedGround } from '../../../geo/growing/shares.ts'
import { plantsAt, spacingOf } from '../../../geo/growing/spacing.ts'
import { standsOf } from '../../../geo/growing/stand.ts'
import { walnutSource } from '../../../geo/growing/walnutSource.ts'
import { nearWalnuts } from '../../../geo/growing/warnings/nearWalnut.ts'
import { MATURE_REACH_M, spreadOn } from '../../../geo/measure/canopy.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import { randomGround } from './randomGround.ts'

// Worked by hand on two beds of 20 m and 12 m, rows drawn east, but the south one of the first drawn west.
const { ground: any } = randomGround(1)
const line = (fromX: number, toX: number, y: number) =>
  [
    [fromX, y],
    [toX, y],
  ] as const
const bed = (id: string, lengthM: number, y: number) => ({ id, field: 'f', name: id, middle: line(0, lengthM, y) })
const row = (id: string, of: string, side: string, along: ReturnType<typeof line>) => ({
  id,
  bed: of,
  name: null,
  side,
  line: along,
})
const byId = <T extends { id: string }>(...all: T[]) => new Map(all.map((one) => [one.id, one]))
const planting = (id: string, where: Partial<Planting>, variety = 'v tomato'): Planting => ({
  ...{ id, row: null, bed: null, variety, from_m: null, to_m: null, set_out: '2025-05-10', cleared: '2025-10-01' },
  ...{ plants: null, spacing_m: null, purpose: null, note: null, extra: {} },
  ...where,
})
const ground = (...plantings: Planting[]): Ground => ({
  ...any,
  seasonStartMonth: 1,
  beds: byId(bed('long', 20, 0), bed('short', 12, -4)),
  rows: byId(
    row('long south', 'long', 'south edge', line(19, 1, -0.4)),
    row('long north', 'long', 'north edge', line(1, 19, 0.4)),
    row('short north', 'short', 'north edge', line(1, 11, -3.6)),
  ),
  plantings,
  sources: [],
  supports: [],
  manure: [],
})

describe('where plantings stand', () => {
  it('compares a whole width with a row drawn against its bed', () => {
    const [whole, back, north] = standsOf(
      ground(
        planting('whole', { bed: 'long', from_m: 0, to_m: 6 }),
        planting('back', { row: 'long south', from_m: 10, to_m: 18 }),
        planting('north', { row: 'long north', from_m: 0, to_m: 18 }),
      ),
    )
    // 10 m along a row that begins at 19 m and runs west is at 9 m of the bed; its end, 18 m along, at 1 m.
    expect(back!.along).toEqual([1, 9])
    // What they share, 1 to 6 m of the bed, is 13 to 18 m along the row.
    expect(sharedGround(back!, whole!)).toEqual([13, 18])
    expect(sharedGround(whole!, back!)).toEqual([1, 6])
    expect(sharedGround(north!, whole!)).toEqual([0, 5])
    expect(sharedGround(north!, back!)).toBeNull()
  })

  it('lists the lanes of a bed from north to south, and the whole width last', () => {
    const history = historyOf(ground(), 'long')!
    expect(history.lanes.map(({ row, along, back }) => [row, along, back])).toEqual([
      ['long north', [1, 19], false],
      ['long south', [1, 19], true],
      [null, [0, 20], false],
    ])
    expect(historyOf(ground(), 'nowhere')).toBeNull()
  })
})

describe('the season that a planting grows in', () => {
  it.each([
    ['spring tomatoes', '2025-05-10', '2025-10-01', 1, 2025],
    ['autumn garlic', '2025-10-14', '2026-07-06', 1, 2026],
    ['autumn garlic, not cleared yet', '2025-10-14', null, 1, 2026],
    ['a quick autumn salad', '2025-10-05', '2025-12-01', 1, 2025],
    ['a season that starts in November', '2025-11-20', '2026-06-01', 11, 2025],
  ] as const)('%s', (_, setOut, cleared, startMonth, season) => {
    expect(growingSeason(setOut, cleared, startMonth)).toBe(season)
  })
})

describe('plants and spacing', () => {
  it('reckon each other, with a plant at either end', () => {
    expect(plantsAt(15, 0.5)).toBe(31)
    // 0.3 / 0.1 is 2.9999999999999996 as doubles are.
    expect(plantsAt(0.3, 0.1)).toBe(4)
    expect(spacingOf(15, 31)).toBe(0.5)
    expect(spacingOf(15, 1)).toBeNull()
  })
})

describe('a walnut that grows', () => {
  it('is told to reach a bed of asparagus years before it is cleared, and never sooner', () => {
    const tree = { ...any.sources[0]!.tree, species: 'Juglans nigra', planted: '2020-01-01', removed: null }
    const young = { ...tree, height_m: null, canopy_radius_m: null, measured: null }
    const asparagus = { ...any.crops.get('tomato')!, stands_years: 12, climbs: false }
    const [stand] = standsOf({
      ...ground(planting('p', { row: 'long north', set_out: '2026-04-01', cleared: null })),
      crops: new Map([['tomato', asparagus]]),
    })
    // From 7 m beyond the row's end. By the Forest Service's curve its crown is 4.97 m across at 10 years and 6.82 m at
    // 15 (PSW-GTR-253, X), so it is taken for some 5 and 7 m tall; reach grows from 2.44 m at 2.44 m to 18.29 m at 15 m.
    const [warning] = nearWalnuts(stand!, [walnutSource(young, [26, 0.4])])
    expect(warning).toMatchObject({ trunkM: 7, until: '2038-03-31', assumed: false })
    expect(warning!.from > '2029-01-01' && warning!.from < '2035-01-01').toBe(true)
    expect(spreadOn(young, warning!.from).reachM).toBeGreaterThanOrEqual(7)
    expect(
      spreadOn(young, new Date(Date.parse(warning!.from) - 86_400_000).toISOString().slice(0, 10)).reachM,
    ).toBeLessThan(7)
    expect(MATURE_REACH_M).toBeCloseTo(18.288, 9)
    expect(nearWalnuts(stand!, [walnutSource(young, [19 + MATURE_REACH_M + 0.01, 0.4])])).toEqual([])
  })
})

describe('a season carried over to the next', () => {
  const plan = [
    planting('a', { row: 'long north', from_m: 0, to_m: 16, plants: 33, spacing_m: 0.5 }),
    planting('b', { row: 'long south', from_m: 12, to_m: 18 }, 'v pea'),
    planting('c', { row: 'short north', set_out: '2024-10-20', cleared: '2025-06-01' }, 'v clover'),
    planting('gone', { row: 'short north', set_out: '2024-04-20', cleared: '2024-06-01' }, 'v clover'),
  ]
  const copied = (move: Parameters<typeof copySeason>[2]) =>
    copySeason(ground(...plan), 2025, move).map(({ of, bed, planting: p, why }) =>
      p ? [of, bed, p.row, p.from_m, p.to_m, p.plants, p.set_out, p.cleared] : [of, bed, why],
    )

  it('is the same a year later, with what grew in it and nothing else', () => {
    expect(copied({ to: 'same place', by: 1 })).toEqual([
      ['a', 'long', 'long north', 0, 16, 33, '2026-05-10', '2026-10-01'],
      ['b', 'long', 'long south', 12, 18, null, '2026-05-10', '2026-10-01'],
      ['c', 'short', 'short north', null, null, null, '2025-10-20', '2026-06-01'],
    ])
  })

  it('moves on to the next side of each bed, the first after the last', () => {
    expect(copied({ to: 'next side', by: 1 }).map((one) => one.slice(0, 3))).toEqual([
      ['a', 'long', 'long south'],
      ['b', 'long', 'long north'],
      ['c', 'short', 'short north'],
    ])
  })

  it('moves on to the next bed, cut to a shorter row, and says what has no room there', () => {
    expect(copied({ to: 'next bed', by: 1 })).toEqual([
      ['b', 'long', 'its row in bed short is only 10.0 m long'],
      ['c', 'long', 'long north', null, null, null, '2025-10-20', '2026-06-01'],
      ['a', 'short', 'short north', 0, 10, 21, '2026-05-10', '2026-10-01'],
    ])
  })

  it('leaves what stands for years', () => {
    const years = { ...any.crops.get('tomato')!, stands_years: 10 }
    const farm = { ...ground(planting('p', { row: 'long north', cleared: null })), crops: new Map([['tomato', years]]) }
    expect(copySeason(farm, 2025, { to: 'same place', by: 1 })).toMatchObject([{ planting: null }])
  })

  it('knows a 29 February', () => {
    expect([addYears('2024-02-29', 1), addYears('2024-02-29', 4)]).toEqual(['2025-02-28', '2028-02-29'])
  })
})
