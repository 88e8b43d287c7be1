import type { Highs } from 'highs'
import type { SitingAnswer } from './answer.ts'
import { costIn } from './costIn.ts'
import type { SitingProblem } from './problem.ts'
import { SHORT_M, type Solved, type SolveOptions, solveSiting } from './solver/solve.ts'

/**
 * What stands in the way where the need can't be met. First which metres are short, by family, in the plan that comes
 * nearest; then each limit by itself: how far it would have to give, the others as they are, for all to be met.
 */
export function bindingOf(
  highs: Highs,
  problem: SitingProblem,
  from: number,
  nearest: Solved | null,
  options: SolveOptions,
): SitingAnswer['binding'] {
  const meets = (changed: SitingProblem) => {
    const solved = solveSiting(highs, changed, { ...options, gap: 0.5, seconds: Math.min(2, options.seconds) })
    return solved !== null && solved.shortM < SHORT_M
  }
  const budget = problem.budget
  const found: { limit: string; by: number }[] = []
  const fixedCost = problem.beds.reduce(
    (sum, { fixed, sites }) => sum + (fixed ? Math.min(...sites.map(({ first }) => first)) : 0),
    0,
  )
  if (budget !== null && fixedCost > budget)
    found.push({ limit: 'budget, for the rows that are fixed', by: fixedCost - budget })
  if (!nearest) return found
  const { shortM } = costIn(problem, nearest.plan)
  problem.families.forEach(({ name }, f) => {
    const most = Math.max(...shortM[f]!)
    if (most <= SHORT_M) return
    found.push({ limit: `need of ${name} in ${from + shortM[f]!.indexOf(most)}, metres`, by: most })
  })
  problem.families.forEach(({ name, returnYears }, f) => {
    for (let less = 1; less < returnYears; less++) {
      const families = problem.families.map((family, n) =>
        n === f ? { ...family, returnYears: returnYears - less } : family,
      )
      const beds = problem.beds.map((bed) => ({
        ...bed,
        freeFrom: bed.freeFrom.map((free, n) => (n === f ? Math.max(0, free - less) : free)),
      }))
      if (!meets({ ...problem, families, beds })) continue
      found.push({ limit: `years before ${name} returns`, by: less })
      return
    }
  })
  return found
}
