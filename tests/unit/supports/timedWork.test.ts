import { describe, expect, it } from 'vitest'
import { costOverYears } from '../../../geo/supports/costOverYears.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { timedRecipe } from '../../../geo/supports/timedRecipe.ts'
import { type Timing, timedBySystem } from '../../../geo/supports/timedWork.ts'

const timing = (support: string, on: string, minutes: number, more: Partial<Timing> = {}): Timing => ({
  support,
  system: 'net',
  lengthM: 10,
  on,
  work: 'tend',
  minutes,
  ...more,
})

describe('work that was timed', () => {
  // By hand: run a in 2025 30 + 20 min, run a in 2026 10 min, run b of 30 m 90 min: 150 min over 10 + 10 + 30 m.
  it('is minutes over the metres of its runs, each once a season, by system and work', () => {
    const told = timedBySystem(
      [
        timing('a', '2025-06-01', 30),
        timing('a', '2026-02-01', 20),
        timing('a', '2026-06-01', 10),
        timing('b', '2025-07-01', 90, { lengthM: 30 }),
        timing('b', '2025-05-01', 60, { lengthM: 30, work: 'put up' }),
      ],
      3,
    )
    expect(told).toEqual([
      { system: 'net', phase: 'each season', times: 3, minutesPerM: 3, low: null, high: null },
      { system: 'net', phase: 'putting up', times: 1, minutesPerM: 2, low: null, high: null },
    ])
  })

  it('tells how sure once five runs and seasons were timed: between the least and the most of them', () => {
    const told = timedBySystem(
      [10, 20, 30, 40, 50].map((minutes, n) => timing(`r${n}`, '2025-06-01', minutes)),
      3,
    )[0]!
    expect(told.minutesPerM).toBe(3)
    expect(told.low).toBeGreaterThan(1)
    expect(told.low).toBeLessThan(3)
    expect(told.high).toBeGreaterThan(3)
    expect(told.high).toBeLessThan(5)
    const alike = timedBySystem(
      [1, 2, 3, 4, 5].map((n) => timing(`r${n}`, '2025-06-01', 25)),
      3,
    )[0]!
    expect([alike.low, alike.high]).toEqual([2.5, 2.5])
  })

  // By hand, 10 m at 12 an hour: told 5 + 1 + 4 min a metre are 100 min, 20.00; with 3 timed for tending 120 min, 24.00.
  it('stands in a system’s place where it was timed, in costs too', () => {
    const recipe: Recipe = {
      id: 'net',
      name: 'Net',
      heightM: null,
      lines: null,
      tensionN: null,
      parts: [],
      work: [
        { work: 'put up', minutesPerM: 5, phase: 'putting up' },
        { work: 'tend', minutesPerM: 0.4, phase: 'each season' },
        { work: 'tie', minutesPerM: 0.6, phase: 'each season' },
        { work: 'pull', minutesPerM: 4, phase: 'taking down' },
      ],
    }
    const timed = [{ system: 'net', phase: 'each season', times: 3, minutesPerM: 3, low: null, high: null }] as const
    const cost = (of: Recipe) =>
      costOverYears({ lengthM: 10, heightM: null, plants: null }, { recipe: of, permanent: false }, 2, {
        labourPerHour: 12,
      }).total
    expect(cost(recipe)).toEqual([20, 40])
    expect(cost(timedRecipe(recipe, timed))).toEqual([24, 48])
    expect(timedRecipe({ ...recipe, id: 'other' }, timed).work).toEqual(recipe.work)
  })
})
