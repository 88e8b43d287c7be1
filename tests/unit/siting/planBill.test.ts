import { describe, expect, it } from 'vitest'
import { readPlanFile } from '../../../geo/siting/planFile.ts'
import type { Plan } from '../../../geo/siting/problem.ts'
import { renewalMoney, renewalsOf } from '../../../geo/siting/renewals.ts'
import { insteadPerM, permanentCosts } from '../../../geo/siting/runCosts.ts'
import type { BedSeen, SitingReading } from '../../../geo/siting/sitingReading.ts'
import { toPlan } from '../../../geo/siting/toPlan.ts'
import { costOverYears } from '../../../geo/supports/costOverYears.ts'
import type { PartKind } from '../../../geo/supports/partKind.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { partOf } from '../supports/partOf.ts'

// Invented systems with round figures, so that all below can be worked by hand.
const part = (part: string, kind: PartKind, rule: string, unitCost: number | null, lastsSeasons: number) =>
  partOf(part, rule, { kind, unitCost, lastsSeasons })
const WIRES: Recipe = {
  id: 'wires',
  name: 'Wires',
  heightM: 1.5,
  lines: 3,
  tensionN: null,
  parts: [
    part('end post', 'end post', '1 per end', 20, 20),
    part('line post', 'post', '1 per 5 m - 1', 10, 3),
    part('wire', 'wire', '1 m per m of line', 0.5, 20),
    part('tie', 'tie', '2 per post', 0.1, 1),
  ],
  work: [
    { work: 'build', minutesPerM: 6, phase: 'putting up' },
    { work: 'tend', minutesPerM: 2, phase: 'each season' },
  ],
}
const NET: Recipe = {
  id: 'net',
  name: 'Net',
  heightM: 1.5,
  lines: null,
  tensionN: null,
  parts: [part('post', 'post', '1 per 2 m + 1', 6, 4), part('string', 'string', '5 m per m', 0.02, 1)],
  work: [
    { work: 'put up', minutesPerM: 3, phase: 'putting up' },
    { work: 'tend', minutesPerM: 1, phase: 'each season' },
    { work: 'pull', minutesPerM: 2, phase: 'taking down' },
  ],
}

const [YEARS, LENGTH_M, PER_HOUR] = [5, 20, 30]

/** Two beds of 20 m, 30 m wanted each year. */
function reading(system: Recipe): SitingReading {
  const file = readPlanFile({
    from: 2027,
    years: YEARS,
    need: { Solanaceae: 30 },
    system: 'wires',
    instead: 'net',
    labour_per_hour: PER_HOUR,
  })
  if ('faults' in file) throw new Error(JSON.stringify(file.faults))
  const costs = permanentCosts(LENGTH_M, system, YEARS, PER_HOUR)
  const site = { side: 'left', earliest: 0, first: costs.first, cost: costs.byBuilt, weighed: [0, 0, 0, 0, 0] } as const
  const seen = (id: string): BedSeen => ({
    id,
    name: id,
    field: 'f',
    lengthM: LENGTH_M,
    lots: [],
    taken: { rows: [], openFrom: 0, openRows: 1, stands: [] },
    walnutFrom: null,
    canopyFrom: null,
    index: null,
    sites: [
      {
        side: 'left',
        line: [
          [0, 0],
          [LENGTH_M, 0],
        ],
        lengthM: LENGTH_M,
        first: costs.first,
        shade: 0,
        windDeg: null,
        stands: false,
        renewals: [],
        forbidden: false,
        preferred: false,
      },
    ],
  })
  const bed = (id: string) => ({
    id,
    lengthM: LENGTH_M,
    rows: 1,
    freeFrom: [0],
    burden: [[0, 0, 0, 0, 0]],
    sites: [site],
    fixed: false,
  })
  return {
    asked: file.asked,
    problem: {
      years: YEARS,
      families: [{ name: 'Solanaceae', needM: 30, returnYears: 1 }],
      beds: [bed('a'), bed('b')],
      insteadPerM: insteadPerM(LENGTH_M, NET, PER_HOUR).perM,
      usePerM: costs.usePerM,
      budget: null,
    },
    beds: [seen('a'), seen('b')],
    weights: { shade: 0, juglone: 0, canopy: 0, low_yield: 0, wind: 0, prefer: 0 },
    notes: [],
    sensitive: [],
    recipes: { system, instead: NET },
    usualM: LENGTH_M,
  }
}

/** Bed a is built in the second year; both are climbed every year. */
const PLAN: Plan = [
  { bed: 0, site: 0, built: 1, climbs: [0, 0, 0, 0, 0] },
  { bed: 1, site: null, built: YEARS, climbs: [0, 0, 0, 0, 0] },
]

describe('materials by year', () => {
  const { materials, cost, metres } = toPlan(reading(WIRES), PLAN)
  const lines = (year: number) =>
    materials
      .find((bill) => bill.year === year)!
      .parts.map(({ use, part, lasts_seasons, needed, bought, cost }) => [
        use,
        part,
        lasts_seasons,
        needed,
        bought,
        cost,
      ])

  it('are those of a case worked by hand', () => {
    expect(metres.map(({ permanent_m, one_season_m }) => [permanent_m, one_season_m])).toEqual([
      [0, 30],
      [20, 10],
      [20, 10],
      [20, 10],
      [20, 10],
    ])
    // 20 m of net: 11 posts of 6, a quarter of them worn out a season (16.50), and 100 m of string (2.00); 2027 has 30 m.
    expect(lines(2027)).toEqual([
      ['one season', 'post', 4, 16.5, 4.125, 24.75],
      ['one season', 'string', null, 150, 150, 3],
    ])
    // 20 m of wires: 2 end posts, 20 / 5 − 1 = 3 line posts, 3 × 20 m of wire; 2 ties for each of the 5 posts. Half a run of net.
    const half = [
      ['climbing', 'tie', null, 10, 10, 1],
      ['one season', 'post', 4, 5.5, 1.375, 8.25],
      ['one season', 'string', null, 50, 50, 1],
    ]
    expect(lines(2028)).toEqual([
      ['building', 'end post', 20, 2, 2, 40],
      ['building', 'line post', 3, 3, 3, 30],
      ['building', 'wire', 20, 60, 60, 30],
      ...half,
    ])
    expect(lines(2029)).toEqual(half)
    expect(lines(2030)).toEqual(half)
    // Line posts last three seasons: built in 2028, bought again in 2031.
    expect(lines(2031)).toEqual([['building', 'line post', 3, 3, 3, 30], ...half])
    // Net takes 6 min/m a season; wires 6 min/m to build, anew when their posts are gone, and 2 min/m to tend.
    expect(materials.map(({ minutes, labour_cost }) => [minutes, labour_cost])).toEqual([
      [180, 90],
      [120 + 40 + 60, 110],
      [100, 50],
      [100, 50],
      [120 + 40 + 60, 110],
    ])
  })

  it('come to the money that is told, year by year and in all', () => {
    expect(cost.by_year).toEqual({ 2027: 117.75, 2028: 220.25, 2029: 60.25, 2030: 60.25, 2031: 150.25 })
    expect(cost.total).toBeCloseTo(117.75 + 220.25 + 60.25 + 60.25 + 150.25, 9)
    expect(materials.map((bill) => bill.parts_cost + bill.labour_cost)).toEqual(Object.values(cost.by_year))
  })

  it('say not known of what can’t be counted or has no price', () => {
    const vague = {
      ...WIRES,
      parts: [part('end post', 'end post', 'as it takes', 20, 20), part('wire', 'wire', '3 m per m', null, 20)],
    }
    const { materials, cost } = toPlan(reading(vague), PLAN)
    expect(materials[1]!.parts.slice(0, 2)).toEqual([
      { use: 'building', part: 'end post', unit: 'piece', lasts_seasons: 20, needed: null, bought: null, cost: null },
      { use: 'building', part: 'wire', unit: 'm', lasts_seasons: 20, needed: 60, bought: 60, cost: null },
    ])
    // Labour, 110, and half a run of net, 9.25.
    expect(cost.by_year[2028]).toBeCloseTo(119.25, 9)
  })
})

it('renews a permanent run as the Supports sheet’s own comparison does, whatever its parts last', () => {
  for (const lasts of [1.5, 2, 2.5, 3, 3.5, 7]) {
    // Nothing used up and no work of a season: what is left is building and renewing.
    const recipe = { ...WIRES, work: WIRES.work.slice(0, 1), parts: [part('post', 'post', '1 per 2 m', 7, lasts)] }
    const { byBuilt } = permanentCosts(LENGTH_M, recipe, 9, PER_HOUR)
    const { total } = costOverYears(
      { lengthM: LENGTH_M, heightM: null, plants: null },
      { recipe, permanent: true },
      9,
      { labourPerHour: PER_HOUR },
    )
    expect(byBuilt.toReversed(), `lasting ${lasts}`).toEqual(total.map((money) => expect.closeTo(money, 9)))
  }
})

describe('a permanent support that stands', () => {
  // Posts of 8 seasons, 11 of them at 7; 20 m of wire of 5 seasons at 0.50 a metre; putting up 6 minutes a metre at 30 an hour.
  const recipe: Recipe = {
    ...WIRES,
    work: WIRES.work.slice(0, 1),
    parts: [part('post', 'post', '1 per 2 m + 1', 7, 8), part('wire', 'wire', '1 m per m', 0.5, 5)],
  }
  const run = { line: [], system: recipe.id, putUp: '2021-04-01' }
  const ahead = { from: 2027, years: YEARS, month: 1 }
  const due = renewalsOf(run, LENGTH_M, [recipe], ahead)!
  const money = (renewals: typeof due) => renewals.map((taken) => renewalMoney([taken], PER_HOUR))

  it('is renewed when its parts have lasted since it was put up', () => {
    // By hand: in 2029 its posts are 8 seasons old (11 × 7, and two hours’ putting up, 60), in 2031 its wire is 10.
    expect(money(due)).toEqual([0, 0, 77 + 60, 0, 10])
    // Put up in the plan's first season, before it begins: nothing is paid for again that season.
    expect(money(renewalsOf({ ...run, putUp: '2027-01-01' }, LENGTH_M, [recipe], ahead)!)).toEqual([0, 0, 0, 0, 0])
    expect(renewalsOf({ ...run, putUp: null }, LENGTH_M, [recipe], ahead)).toBeNull()
  })

  it('costs the plan that takes it what is renewed, in the year that it falls due', () => {
    const bare = reading(WIRES)
    const [bed] = bare.beds
    const [site] = bare.problem.beds[0]!.sites
    const standing: SitingReading = {
      ...bare,
      beds: [{ ...bed!, sites: [{ ...bed!.sites[0]!, stands: true, renewals: due }] }, bare.beds[1]!],
      problem: {
        ...bare.problem,
        beds: [
          { ...bare.problem.beds[0]!, sites: [{ ...site!, first: 0, cost: [147, 147, 147, 147, 147] }] },
          bare.problem.beds[1]!,
        ],
      },
    }
    const plan: Plan = [{ bed: 0, site: 0, built: 0, climbs: [0, 0, 0, 0, 0] }, PLAN[1]!]
    const { materials, cost } = toPlan(standing, plan)
    const building = materials.map(({ parts }) =>
      parts.filter(({ use }) => use === 'building').map((one) => [one.part, one.bought, one.cost]),
    )
    expect(building).toEqual([[], [], [['post', 11, 77]], [], [['wire', 20, 10]]])
    expect(Object.values(cost.by_year).reduce((sum, year) => sum + year, 0)).toBeCloseTo(cost.total, 9)
  })
})
