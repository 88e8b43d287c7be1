import { describe, expect, it } from 'vitest'
import { CATALOGUE } from '../../../geo/supports/catalogue.ts'
import { standsInGround } from '../../../geo/supports/partKind.ts'
import { readPartRule } from '../../../geo/supports/partRule.ts'
import { postsToReuse } from '../../../geo/supports/postsToReuse.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { postsOf, runBill } from '../../../geo/supports/runBill.ts'
import { shoppingList } from '../../../geo/supports/shoppingList.ts'
import { sideLine } from '../../../geo/supports/sideLine.ts'
import { sumBills } from '../../../geo/supports/sumBills.ts'
import { partOf } from './partOf.ts'

const netting: Recipe = {
  id: 'net',
  name: 'Net',
  heightM: 1.5,
  lines: 1,
  tensionN: null,
  parts: [
    partOf('post', '1 per 1.5 m + 1', { kind: 'post', unitCost: 6, lastsSeasons: 15 }),
    partOf('net', '1 m per m', { kind: 'net', unitCost: 0.5, lastsSeasons: 4, rollM: 50 }),
  ],
  work: [
    { work: 'put up', minutesPerM: 5, phase: 'putting up' },
    { work: 'take down', minutesPerM: 4, phase: 'taking down' },
  ],
}
const run = (lengthM: number) => ({
  run: { lengthM, heightM: null, plants: null, permanent: false },
  recipe: netting,
})
const store = (part: string, count: number | null, metres: number | null) => ({
  id: part,
  part,
  count,
  metres,
  note: null,
})

describe('the bill of some runs', () => {
  // Worked by hand. 30 m: 21 posts and 30 m of net; 24 m: 17 posts and 24 m. 38 posts at 6 are 228, 54 m at 0.5 are 27.
  // A season: 228 / 15 + 27 / 4 = 21.95, and 54 m × 9 min = 486 min, at 12 an hour 97.20.
  const bill = sumBills([run(30), run(24)], 12)

  it('adds parts, costs and labour', () => {
    expect(bill.parts.map(({ part, count, cost }) => [part, count, cost])).toEqual([
      ['post', 38, 228],
      ['net', 54, 27],
    ])
    expect(bill.costNow).toBe(255)
    expect(bill.minutesPerSeason).toBe(486)
    expect(bill.costPerSeason).toBeCloseTo(21.95 + 97.2, 9)
  })

  it('packs 30 m and 24 m of net into two rolls of 50 m', () => {
    expect(bill.rolls.map(({ cuts, wasteM }) => [cuts, wasteM])).toEqual([[[[30], [24]], 46]])
  })

  it('takes what is in store off the shopping list, names told apart by neither case nor blanks', () => {
    const list = shoppingList(bill, [store(' Post', 20, null), store('net', null, 26), store('twine', 3, null)])
    expect(list.map(({ part, needed, inStore, toBuy, rolls }) => [part, needed, inStore, toBuy, rolls])).toEqual([
      ['post', 38, 20, 18, null],
      // 24 m are cut from the 26 m in store; the 30 m that are left need a roll.
      ['net', 54, 26, 28, 1],
    ])
    // No cut is so short as 20 m: both rolls are needed still, though 34 m would do for one.
    expect(shoppingList(bill, [store('net', null, 20)])[1]).toMatchObject({ toBuy: 34, rolls: 2 })
    expect(shoppingList(bill, [store('net', null, 60), store('post', 99, null)]).map(({ toBuy }) => toBuy)).toEqual([
      0, 0,
    ])
  })

  it('says how many runs a part can’t be counted for, and adds the others', () => {
    const byPlants = { ...netting, parts: [partOf('tie', '2 per plant', { kind: 'tie', unitCost: 1 })] }
    const known = { run: { ...run(10).run, plants: 7 }, recipe: byPlants }
    const { parts } = sumBills([known, { ...known, run: run(10).run }], null)
    expect(parts).toEqual([{ part: 'tie', unit: 'piece', count: 14, uncounted: 1, cost: 14, unpriced: 1 }])
  })
})

describe('the catalogue', () => {
  it('has the systems that growers put up, each rule one that can be counted, with its source', () => {
    expect(CATALOGUE.length).toBeGreaterThanOrEqual(8)
    expect(new Set(CATALOGUE.map(({ id }) => id)).size).toBe(CATALOGUE.length)
    for (const { name, parts, work } of CATALOGUE) {
      expect(work.length, name).toBeGreaterThan(0)
      for (const part of parts) {
        expect(readPartRule(part.rule), `${name}: ${part.part}`).not.toBeNull()
        expect(part.source, `${name}: ${part.part}`).not.toBe('')
      }
    }
  })

  it('counts posts as it places them, for runs of many lengths', () => {
    for (const system of CATALOGUE) {
      const recipe: Recipe = {
        id: system.id,
        name: system.name,
        heightM: system.heightM,
        lines: system.lines ?? null,
        tensionN: null,
        parts: system.parts.map((one) => partOf(one.part, one.rule, { kind: one.kind, unitCost: one.unitCost })),
        work: [],
      }
      for (const lengthM of [2, 5.3, 17, 31.5, 88]) {
        const of = { lengthM, heightM: null, plants: Math.round(lengthM / 0.55), permanent: system.permanent }
        const posts = postsOf(of, recipe)
        for (const [n, { part, count }] of runBill(of, recipe).parts.entries())
          if (standsInGround(recipe.parts[n]!.kind))
            expect(
              posts.filter((post) => post.part === part).reduce((sum, post) => sum + post.count, 0),
              `${system.name}, ${part}, ${lengthM} m`,
            ).toBe(count)
      }
    }
  })

  // Sumner, Univ. of Georgia: line posts 20 ft apart between two end posts. 24.4 m (80 ft) are four spans of 20 ft.
  it('places the posts of a trellis of 80 ft as published: two end posts and three between', () => {
    const wirework = CATALOGUE.find(({ id }) => id === 'braced-wirework')!
    const counts = wirework.parts
      .filter(({ kind }) => standsInGround(kind))
      .map(({ part, rule, kind }) => {
        const recipe = { ...netting, parts: [partOf(part, rule, { kind })] }
        return runBill({ lengthM: 80 * 0.3048, heightM: null, plants: null, permanent: true }, recipe).parts[0]!.count
      })
    expect(counts).toEqual([2, 3])
  })
})

describe('posts that stand already', () => {
  const line = [
    [0, 0],
    [6, 0],
  ] as const
  const wanted = [0, 1.5, 3, 4.5, 6].map((atM) => ({ part: 'post', atM, count: 1 }))
  const at = (x: number, y: number, part = 'post') => ({ part, at: [x, y] as const, count: 1 })

  it('are used where one of the same kind stands within 0.3 m, each once', () => {
    const standing = [at(0.29, 0), at(1.81, 0), at(3, 0.31), at(4.5, 0, 'stake'), at(6, -0.2)]
    const { reused, left } = postsToReuse(line, wanted, standing)
    expect(reused).toEqual(new Map([['post', 2]]))
    expect(left.map(({ atM }) => atM)).toEqual([1.5, 3, 4.5])
    expect(postsToReuse(line, wanted, standing, 'any post').left.map(({ atM }) => atM)).toEqual([1.5, 3])
    const twice = [
      { part: 'post', atM: 3, count: 1 },
      { part: 'post', atM: 3.2, count: 1 },
    ]
    expect(postsToReuse(line, twice, [at(3.1, 0)]).reused).toEqual(new Map([['post', 1]]))
    expect(postsToReuse(line, wanted, [])).toEqual({ reused: new Map(), left: wanted })
  })
})

describe('a run along a side of a bed', () => {
  const bed = [
    [0, 0],
    [10, 0],
    [10, 1.2],
    [0, 1.2],
  ] as const

  it.each([
    ['left', 1.05],
    ['middle', 0.6],
    ['right', 0.15],
  ] as const)('lies at the %s, an edge 0.15 m in, left being north of a bed that runs east', (side, northM) => {
    const [from, to] = sideLine(bed, side)!
    for (const [told, wanted] of [
      [from, [0, northM]],
      [to, [10, northM]],
    ] as const) {
      expect(told[0]).toBeCloseTo(wanted[0], 9)
      expect(told[1]).toBeCloseTo(wanted[1], 9)
    }
  })
})
