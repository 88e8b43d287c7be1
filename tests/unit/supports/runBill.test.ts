import { describe, expect, it } from 'vitest'
import { costOverYears, paidBackIn } from '../../../geo/supports/costOverYears.ts'
import { endMomentNM, type LoadCase, loadCheck } from '../../../geo/supports/load/loadCheck.ts'
import { remedies } from '../../../geo/supports/load/remedies.ts'
import { partKindOf } from '../../../geo/supports/partKind.ts'
import type { Recipe, RecipePart } from '../../../geo/supports/recipe.ts'
import { postsOf, runBill } from '../../../geo/supports/runBill.ts'
import { type Comparison, outcome, sensitivity } from '../../../geo/supports/sensitivity.ts'
import { partOf } from './partOf.ts'

type Sizes = Partial<Pick<RecipePart, 'diameterMm' | 'strengthMPa'>>
const part = (name: string, rule: string, unitCost: number | null, lastsSeasons: number | null, sizes: Sizes = {}) =>
  partOf(name, rule, { kind: partKindOf(name, null), unitCost, lastsSeasons, ...sizes })

/** Post, wire and net, pulled each autumn: invented prices. */
const NETTED: Recipe = {
  id: 'net',
  name: 'Post, wire and net',
  heightM: 1.8,
  lines: 1,
  tensionN: 300,
  parts: [
    part('steel post', '1 per 1.5 m + 1', 5, 10, { diameterMm: 35, strengthMPa: 250 }),
    part('wire', '1 m per m', 0.1, 5, { diameterMm: 1.37, strengthMPa: 400 }),
    part('net', '1 m per m', 0.5, 3),
    part('tie', '4 per post', 0.03, 1),
  ],
  work: [
    { work: 'drive posts, hang net', minutesPerM: 5, phase: 'putting up' },
    { work: 'guide plants', minutesPerM: 1, phase: 'each season' },
    { work: 'clear, roll net', minutesPerM: 4, phase: 'taking down' },
  ],
}

/** Wirework left up: invented prices. */
const WIREWORK: Recipe = {
  id: 'wire',
  name: 'Wirework',
  heightM: 1.8,
  lines: 3,
  tensionN: 1100,
  parts: [
    part('end post', '1 per end', 20, 20, { diameterMm: 120, strengthMPa: 35 }),
    part('brace', '1 per end', 15, 20),
    part('line post', '1 per 6 m - 1', 11, 20, { diameterMm: 80, strengthMPa: 35 }),
    part('wire', '1 m per m of line', 0.2, 20, { diameterMm: 2.51, strengthMPa: 1172 }),
  ],
  work: [
    { work: 'set', minutesPerM: 10, phase: 'putting up' },
    { work: 'tend and clear', minutesPerM: 3, phase: 'each season' },
  ],
}
const RUN = { lengthM: 24, heightM: null, plants: 40 }

describe('the bill of a run', () => {
  // By hand, 24 m: 17 posts at 5 = 85; 24 m wire at 0.1 = 2.40; 24 m net at 0.5 = 12; 68 ties at 0.03 = 2.04; together 101.44.
  // A season: 8.50 + 0.48 + 4 + 2.04 = 15.02. Work: 24·5 + 24·1 + 24·4 = 240 minutes.
  it('of a one-season system is as laid out by hand', () => {
    const bill = runBill({ ...RUN, permanent: false }, NETTED)
    expect(bill.parts.map(({ count }) => count)).toEqual([17, 24, 24, 68])
    expect(bill.parts.map(({ unit }) => unit)).toEqual(['piece', 'm', 'm', 'piece'])
    expect(bill.costNow).toBeCloseTo(101.44, 9)
    expect(bill.partsPerSeason).toBeCloseTo(15.02, 9)
    expect(bill.minutesPerSeason).toBeCloseTo(240, 9)
    expect(bill.unknown).toEqual([])
  })

  // 2·20 + 2·15 + 3·11 + 72·0.2 = 117.40; a twentieth of it is 5.87. Work: 24·3 + 24·10/20 = 84 minutes a season.
  it('of a permanent one spreads its parts and its putting up', () => {
    const bill = runBill({ ...RUN, permanent: true }, WIREWORK)
    expect(bill.costNow).toBeCloseTo(117.4, 9)
    expect(bill.partsPerSeason).toBeCloseTo(5.87, 9)
    expect(bill.minutesPerSeason).toBeCloseTo(84, 9)
    expect(bill.seasonsUp).toBe(20)
  })

  it('names what can’t be counted or has no price, and sums the rest', () => {
    const parts = [
      part('clip', '2 per plant', 0.1, 1),
      part('net', 'as it comes', 1, 1),
      part('hook', '2 per run', null, 1),
    ]
    const bill = runBill({ lengthM: 10, heightM: null, plants: null, permanent: false }, { ...NETTED, parts })
    expect(bill.unknown).toEqual(['clip', 'net', 'hook'])
    expect(bill.parts.map(({ count }) => count)).toEqual([null, null, 2])
    expect(bill.costNow).toBe(0)
  })

  it('counts the posts that are drawn', () => {
    for (const [recipe, permanent] of [
      [NETTED, false],
      [WIREWORK, true],
    ] as const)
      for (const lengthM of [1, 5.9, 6, 24, 37.3]) {
        const run = { ...RUN, lengthM, permanent }
        const drawn = postsOf(run, recipe).reduce((sum, { count }) => sum + count, 0)
        const billed = runBill(run, recipe).parts.filter((_, n) => /post/.test(recipe.parts[n]!.part))
        expect(drawn).toBe(billed.reduce((sum, { count }) => sum + count!, 0))
      }
  })
})

describe('costs over years', () => {
  const at = { labourPerHour: 12 }
  // By hand. Netted: 101.44 + 4 h·12 = 149.44 in season 1; ties and work 2.04 + 48 = 50.04 in 2 and 3; net again in 4: 62.04.
  // Wirework: 117.40 + 24·13 min = 5.2 h·12 = 62.40, together 179.80; then 24·3 min = 1.2 h·12 = 14.40 a season.
  const netted = costOverYears(RUN, { recipe: NETTED, permanent: false }, 4, at)
  const wirework = costOverYears(RUN, { recipe: WIREWORK, permanent: true }, 4, at)
  it('are those laid out by hand', () => {
    for (const [n, cost] of [149.44, 50.04, 50.04, 62.04].entries()) expect(netted.bySeason[n]).toBeCloseTo(cost, 9)
    for (const [n, cost] of [179.8, 14.4, 14.4, 14.4].entries()) expect(wirework.bySeason[n]).toBeCloseTo(cost, 9)
    expect(wirework.total[3]).toBeCloseTo(223, 9)
  })

  // After season 1: 179.80 against 149.44; after 2: 194.20 against 199.48.
  it('tell the season in which the permanent run has paid', () => {
    expect(paidBackIn(wirework, netted)).toBe(2)
    expect(paidBackIn(netted, wirework)).toBeNull()
  })

  it('buy anew what lasts two and a half seasons in the fourth, the sixth and the ninth', () => {
    const recipe = { ...NETTED, parts: [part('net', '1 per run', 1, 2.5)], work: [] }
    const { bySeason } = costOverYears(RUN, { recipe, permanent: false }, 9, at)
    expect(bySeason).toEqual([1, 0, 0, 1, 0, 1, 0, 0, 1])
  })

  it('say which assumption moves the saving most', () => {
    const of: Comparison = { run: RUN, permanent: WIREWORK, oneSeason: NETTED, seasons: 10, ...at }
    const swings = sensitivity(of)
    expect(swings[0]!.assumption).toBe('work on the one-season run')
    const saves = outcome(of).saves
    for (const { low, high } of swings) expect((low.saves - saves) * (high.saves - saves)).toBeLessThanOrEqual(1e-9)
    const labour = swings.find(({ assumption }) => assumption === 'price of labour')!
    // Labour saved over 10 seasons: 10·4 h less 1.2·10 + 4 h, a third of it at 12 an hour.
    expect(labour.high.saves - saves).toBeCloseTo(((40 - 16) * 12) / 3, 6)
  })
})

describe('what gives first', () => {
  const load: LoadCase = {
    loadNPerM: 102,
    wind: { speedMPerS: 25, exposure: 1, topography: 1, direction: 1 },
    leafCoefficient: 1.2,
  }
  it('is reckoned for line, posts and unbraced ends', () => {
    const { topLine, checks } = loadCheck({ ...RUN, permanent: false }, NETTED, load)
    expect(topLine!.spanM).toBeCloseTo(1.5, 9)
    expect(topLine!.safety).toBeCloseTo(topLine!.breakingN / topLine!.tensionN, 12)
    expect(topLine!.breakingN).toBeCloseTo((400e6 * Math.PI * 0.00137 ** 2) / 4, 6)
    expect(checks.map(({ what }) => what).sort()).toEqual(['end post', 'post in the wind', 'top line'])
    for (const [n, { share }] of checks.entries()) if (n > 0) expect(share).toBeLessThanOrEqual(checks[n - 1]!.share)
    // Wind on 1.5 m of a net 1.8 m high: 383 Pa · 1.2 · 1.8 · 1.5 · 0.9 m over π·0.035³/32, of 250 MPa (by hand).
    const wind = checks.find(({ what }) => what === 'post in the wind')!
    expect(wind.share).toBeCloseTo((383.125 * 1.2 * 1.8 * 1.5 * 0.9) / ((Math.PI * 0.035 ** 3) / 32) / 250e6, 6)
  })

  it('is not the end post where a brace holds it', () => {
    const { checks } = loadCheck({ ...RUN, permanent: true }, WIREWORK, load)
    expect(checks.map(({ what }) => what)).not.toContain('end post')
  })

  // Three lines at 0.6, 1.2 and 1.8 m: 1500·1.8 + 1000·(1.2 + 0.6) = 4500 N·m. One: 1500·1.8 = 2700 N·m.
  it('bends an end post by the pull of every strained line at its height', () => {
    expect(endMomentNM({ tensionN: 1500, lines: 3, othersTensionN: 1000 }, 1.8)).toBeCloseTo(4500, 9)
    expect(endMomentNM({ tensionN: 1500, lines: 1, othersTensionN: 1000 }, 1.8)).toBeCloseTo(2700, 9)
  })

  it('counts all three wires where no brace holds the end post of a wirework', () => {
    const unbraced = { ...WIREWORK, parts: WIREWORK.parts.filter(({ kind }) => kind !== 'brace') }
    const { topLine, checks } = loadCheck({ ...RUN, permanent: true }, unbraced, load)
    expect(topLine!.lines).toBe(3)
    // Strained to 1100 N, the lower ones bear their own 0.38 N/m over 6 m: hardly more.
    expect(topLine!.othersTensionN).toBeCloseTo(1100, 0)
    // π·0.12³/32 is 1.69646e-4 m³; 35 MPa of it are 5937.6 N·m.
    const end = checks.find(({ what }) => what === 'end post')!
    expect(end.share).toBeCloseTo((topLine!.tensionN * 1.8 + topLine!.othersTensionN * 1.8) / 5937.61, 4)
    // Without a number of lines, by the rules: 3.15 m of wire for each metre are three, two wires of 1 m each are two.
    const linesOf = (...wires: RecipePart[]) =>
      loadCheck(
        { ...RUN, permanent: true },
        { ...unbraced, lines: null, parts: [...unbraced.parts.slice(0, 2), ...wires] },
        load,
      ).topLine!.lines
    const wire = { diameterMm: 2.51, strengthMPa: 1172 }
    expect(linesOf(part('wire', '3.15 m per m', 0.2, 20, wire))).toBe(3)
    expect(linesOf(part('top wire', '1 m per m', 0.2, 20, wire), part('wire', '1.05 m per m', 0.2, 20, wire))).toBe(2)
  })

  it('gives less where what gives first is helped, and nothing that does not help is named', () => {
    const run = { ...RUN, permanent: false }
    const worst = loadCheck(run, NETTED, load).checks[0]!
    const found = remedies(run, NETTED, load)
    expect(found.length).toBeGreaterThan(0)
    for (const { share } of found) expect(share).toBeLessThan(worst.share)
  })

  it('is not told where nothing is known of the parts', () => {
    const bare = { ...NETTED, parts: [part('post', '1 per 2 m + 1', 1, 1), part('wire', '1 m per m', 1, 1)] }
    expect(loadCheck({ ...RUN, permanent: false }, bare, load)).toEqual({ topLine: null, checks: [] })
  })
})
