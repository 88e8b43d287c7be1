import { describe, expect, it } from 'vitest'
import { materialsOf } from '../../../geo/supports/materialsOf.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { type DatedRun, runsToBuyFor } from '../../../geo/supports/runsToBuyFor.ts'
import { shoppingList } from '../../../geo/supports/shoppingList.ts'
import { partOf } from './partOf.ts'

/** Invented: posts for fifteen seasons, net in rolls for four, ties for one, and a hook of which nobody told. */
const netting: Recipe = {
  id: 'net',
  name: 'Net',
  heightM: 1.5,
  lines: 1,
  tensionN: null,
  parts: [
    partOf('post', '1 per 1.5 m + 1', { kind: 'post', unitCost: 6, lastsSeasons: 15 }),
    partOf('net', '1 m per m', { kind: 'net', unitCost: 0.5, lastsSeasons: 4, rollM: 50 }),
    partOf('tie', '2 per post', { kind: 'tie', unitCost: 0.1, lastsSeasons: 1 }),
    partOf('hook', '1 per run', { unitCost: 1 }),
  ],
  work: [],
}
const run = (lengthM: number, putUp: string | null): DatedRun => ({
  run: { lengthM, heightM: null, plants: null, permanent: true },
  recipe: netting,
  putUp,
})
const bought = (planned: readonly DatedRun[], standing: readonly DatedRun[], season: number) => {
  const { parts, costNow, rolls } = materialsOf(runsToBuyFor(planned, standing, season, 3).runs)
  return { parts: Object.fromEntries(parts.map(({ part, count }) => [part, count])), costNow, rolls: rolls.length }
}

// By hand: 30 m take 21 posts, 30 m of net, 42 ties and a hook; 15 m take 11, 15 m, 22 and a hook.
describe('what is to be bought', () => {
  it('is nothing for what stands in the season that it was put up in', () => {
    expect(bought([], [run(30, '2026-04-01')], 2026)).toEqual({ parts: {}, costNow: 0, rolls: 0 })
    // January belongs to the season before, which begins in March.
    expect(bought([], [run(30, '2026-04-01')], 2025).parts).toEqual({})
  })

  it('is all of what is put up later: 21·6 + 30·0.5 + 42·0.1 + 1 = 146.20', () => {
    const told = bought([run(30, '2026-08-01')], [run(15, '2026-04-01')], 2026)
    expect(told.parts).toEqual({ post: 21, net: 30, tie: 42, hook: 1 })
    expect(told.costNow).toBeCloseTo(146.2, 9)
    expect(told.rolls).toBe(1)
  })

  it('is of what stands what lasts one season, in every season after its first: 22 ties at 0.1', () => {
    const told = bought([], [run(15, '2024-04-01')], 2026)
    expect(told).toEqual({ parts: { tie: 22 }, costNow: expect.closeTo(2.2, 9), rolls: 0 })
    // Put up in February 2025, it stands in its second season, that of 2025, from March on.
    expect(bought([], [run(15, '2025-02-10')], 2025).parts).toEqual({ tie: 22 })
  })

  it('is the net of four seasons in the fifth and the ninth, the posts of fifteen in the sixteenth', () => {
    expect(bought([], [run(15, '2022-04-01')], 2025).parts).toEqual({ tie: 22 })
    expect(bought([], [run(15, '2022-04-01')], 2026)).toEqual({
      parts: { net: 15, tie: 22 },
      costNow: expect.closeTo(9.7, 9),
      rolls: 1,
    })
    expect(bought([], [run(15, '2018-04-01')], 2026).parts).toEqual({ net: 15, tie: 22 })
    expect(bought([], [run(15, '2011-04-01')], 2026).parts).toEqual({ post: 11, tie: 22 })
  })

  it('tells what it can’t: parts whose seasons are not known, and runs whose day is not', () => {
    const told = runsToBuyFor([], [run(15, null), run(15, '2022-04-01')], 2025, 3)
    expect(told).toMatchObject({ standing: 2, untold: ['hook'], undated: 1 })
    expect(materialsOf(told.runs).parts.map(({ part, count }) => [part, count])).toEqual([['tie', 44]])
    expect(runsToBuyFor([], [run(15, '2026-04-01')], 2026, 3)).toEqual({
      runs: [],
      standing: 0,
      untold: [],
      undated: 0,
    })
  })

  // Ties: 42 of the planned run and 22 of the one that stands are 64, less 50 in store 14, at 0.1 each 1.40.
  it('adds both, and takes off what is in store with its share of the cost', () => {
    const { runs } = runsToBuyFor([run(30, '2026-08-01')], [run(15, '2024-04-01')], 2026, 3)
    const list = shoppingList(materialsOf(runs), [{ id: 's', part: 'Tie', count: 50, metres: null, note: null }])
    expect(list.find(({ part }) => part === 'tie')).toEqual({
      part: 'tie',
      unit: 'piece',
      needed: 64,
      inStore: 50,
      toBuy: 14,
      rolls: null,
      rollM: null,
      cost: expect.closeTo(1.4, 9),
    })
  })
})
