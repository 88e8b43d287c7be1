import loadHighs from 'highs'
import { beforeAll, describe, expect, it } from 'vitest'
import { costIn } from '../../../geo/siting/costIn.ts'
import type { Plan, SitingProblem } from '../../../geo/siting/problem.ts'
import { priceBed } from '../../../geo/siting/solver/price.ts'
import { SHORT_M, type Solved, solveSiting } from '../../../geo/siting/solver/solve.ts'
import { waitingOf } from '../../../geo/siting/solver/waiting.ts'
import { randomProblem } from './randomProblem.ts'
import { tryAll } from './tryAll.ts'

let highs: Awaited<ReturnType<typeof loadHighs>>
beforeAll(async () => {
  highs = await loadHighs()
})
const solve = (problem: SitingProblem, gap = 0, seconds = 20): Solved | null =>
  solveSiting(highs, problem, { gap, seconds, clock: () => performance.now() })

/** What a plan does that it must not, by the rules alone. */
function wrongs({ beds, families, years, budget, waits }: SitingProblem, plan: Plan): string[] {
  const said: string[] = []
  for (const { bed: n, site, built, climbs } of plan) {
    const bed = beds[n]!
    if (climbs.length !== years) said.push(`${bed.id}: ${climbs.length} years`)
    if (site !== null && built < bed.sites[site]!.earliest) said.push(`${bed.id}: built too early`)
    climbs.forEach((family, t) => {
      if (family === null) return
      if (t < bed.freeFrom[family]!) said.push(`${bed.id}: family ${family} back too soon after what stood there`)
      climbs.slice(0, t).forEach((before, s) => {
        if (before === null) return
        const wait = waits ? waits[before]![family]! : before === family ? families[family]!.returnYears : 0
        if (t - s < wait) said.push(`${bed.id}: family ${family} after ${before} in ${t - s} years`)
      })
      if (bed.burden[family]![t] === Number.POSITIVE_INFINITY) said.push(`${bed.id}: family ${family} where it may not`)
    })
  }
  if (new Set(plan.map(({ bed }) => bed)).size !== plan.length) said.push('two plans for one bed')
  const spent = plan.reduce((sum, { bed, site }) => sum + (site === null ? 0 : beds[bed]!.sites[site]!.first), 0)
  if (budget !== null && spent > budget + 1e-6) said.push(`${spent} spent of ${budget}`)
  beds.forEach(({ fixed, id }, n) => {
    if (fixed && !plan.some(({ bed, site }) => bed === n && site !== null)) said.push(`${id}: fixed and not built`)
  })
  return said
}

describe('the choice', () => {
  const sizes = [
    { beds: 2, years: 3, families: 2, sites: 1 },
    { beds: 3, years: 2, families: 2, sites: 1 },
    { beds: 2, years: 2, families: 2, sites: 2 },
    { beds: 2, years: 4, families: 1, sites: 2 },
  ]
  it('is the best of every one that there is, in a hundred small cases, and says when there is none', () => {
    let none = 0
    for (let seed = 1; seed <= 100; seed++) {
      const problem = randomProblem(seed, sizes[seed % sizes.length]!)
      const best = tryAll(problem)
      const solved = solve(problem)
      if (best === null) {
        none++
        expect(solved === null || solved.shortM > SHORT_M, `seed ${seed}`).toBe(true)
        continue
      }
      expect(solved!.shortM, `seed ${seed}`).toBeLessThan(SHORT_M)
      expect(solved!.value, `seed ${seed}`).toBeCloseTo(best, 5)
      expect(solved!.gap, `seed ${seed}`).toBeLessThan(1e-6)
      expect(wrongs(problem, solved!.plan), `seed ${seed}`).toEqual([])
      const { total, weighed } = costIn(problem, solved!.plan)
      expect(total + weighed, `seed ${seed}`).toBeCloseTo(best, 5)
    }
    expect(none).toBeGreaterThan(5)
    expect(none).toBeLessThan(60)
  }, 120_000)

  it('obeys every limit where it is too large to try all, with a bound that is below it', () => {
    for (let seed = 201; seed <= 203; seed++) {
      const problem = randomProblem(seed, { beds: 12, years: 5, families: 3, sites: 2 })
      const solved = solve({ ...problem, budget: null }, 0.05, 2)!
      expect(wrongs({ ...problem, budget: null }, solved.plan)).toEqual([])
      expect(solved.bound).toBeLessThanOrEqual(solved.value)
    }
  })

  it('says of a plan with few rows what a bed’s row would cost at least, held against every plan with as few', () => {
    let dearer = 0
    for (let seed = 301; seed <= 340; seed++) {
      const random = randomProblem(seed, { beds: 3, years: 2, families: 2, sites: 1 })
      const free = { ...random, budget: null, beds: random.beds.map((bed) => ({ ...bed, fixed: false })) }
      const counted = { is: () => true, least: 0, most: 1 }
      const solved = solveSiting(highs, free, { gap: 0, seconds: 20, counted, clock: () => performance.now() })
      if (!solved || solved.shortM > SHORT_M) continue
      const waiting = waitingOf(free)
      free.beds.forEach((_, n) => {
        // One row at most: a budget of 1 where each costs 1. The bed's own is asked for.
        const best = tryAll({
          ...free,
          budget: 1,
          beds: free.beds.map((bed, m) => ({
            ...bed,
            fixed: m === n,
            sites: bed.sites.map((site) => ({ ...site, first: 1 })),
          })),
        })
        const more = priceBed(free, n, waiting[n]!, solved.relaxed.prices, counted.is).leastBuilt
        if (more > 0.005) dearer++
        if (best !== null)
          expect(solved.relaxed.bound + more, `seed ${seed}, bed ${n}`).toBeLessThanOrEqual(best + 1e-4)
      })
    }
    expect(dearer).toBeGreaterThan(10)
  })

  it('builds nothing where pulling every autumn costs less', () => {
    const problem = randomProblem(7, { beds: 4, years: 3, families: 1, sites: 1 })
    const dear = {
      ...problem,
      budget: null,
      insteadPerM: 0.5,
      usePerM: 0.4,
      families: [{ name: 'F', needM: 10, returnYears: 1 }],
      beds: problem.beds.map((bed) => ({
        ...bed,
        fixed: false,
        freeFrom: [0],
        burden: [[0, 0, 0]],
        sites: bed.sites.map((site) => ({ ...site, cost: [300, 300, 300], weighed: [0, 0, 0] })),
      })),
    }
    const { plan, value } = solve(dear)!
    expect(plan.every(({ site }) => site === null)).toBe(true)
    expect(value).toBeCloseTo(3 * 10 * 0.5, 6)
  })
})
