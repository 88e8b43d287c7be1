import type { BedPlan, SitingProblem } from '../problem.ts'

/** A bed's plan as a column of the program: its own cost, and where it counts. */
export interface Column extends BedPlan {
  readonly cost: number
  /** Against the budget. */
  readonly first: number
}

export function columnOf(problem: SitingProblem, plan: BedPlan): Column {
  const bed = problem.beds[plan.bed]!
  const site = plan.site === null ? null : bed.sites[plan.site]!
  const burden = plan.climbs.reduce<number>(
    (sum, family, year) => sum + (family === null ? 0 : bed.burden[family]![year]!),
    0,
  )
  return {
    ...plan,
    cost: burden + (site ? site.cost[plan.built]! + site.weighed[plan.built]! : 0),
    first: site?.first ?? 0,
  }
}

/** The same plan by the same words. */
export const keyOf = ({ bed, site, built, climbs }: BedPlan): string => `${bed} ${site} ${built} ${climbs.join()}`
