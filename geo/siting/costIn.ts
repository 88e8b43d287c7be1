import type { Plan, SitingProblem } from './problem.ts'

/** What a plan comes to. Metres by family and year; money by year. */
export interface PlanCost {
  /** Metres along permanent supports, and along those of one season. */
  readonly permanentM: readonly (readonly number[])[]
  readonly insteadM: readonly (readonly number[])[]
  /** Wanted, and nowhere to stand. */
  readonly shortM: readonly (readonly number[])[]
  readonly building: readonly number[]
  readonly using: readonly number[]
  readonly instead: readonly number[]
  /** Money in all. */
  readonly total: number
  /** What weights lay on it, beside the money. */
  readonly weighed: number
}

/**
 * Reckons a plan: of what its beds carry, metres wanted are taken along permanent supports first where those cost less
 * in a season, the others along supports of one season, as far as beds carry them.
 */
export function costIn(problem: SitingProblem, plan: Plan): PlanCost {
  const { years, families, beds, insteadPerM, usePerM } = problem
  const zero = () => families.map(() => new Array<number>(years).fill(0))
  const [permanent, oneSeason] = [zero(), zero()]
  const building = new Array<number>(years).fill(0)
  let weighed = 0
  for (const { bed: n, site, built, climbs } of plan) {
    const bed = beds[n]!
    if (site !== null) {
      building[built]! += bed.sites[site]!.cost[built]!
      weighed += bed.sites[site]!.weighed[built]!
    }
    climbs.forEach((family, year) => {
      if (family === null) return
      const along = year >= built ? 1 : 0
      permanent[family]![year]! += along * bed.lengthM
      oneSeason[family]![year]! += (bed.rows - along) * bed.lengthM
      weighed += bed.burden[family]![year]!
    })
  }
  const [permanentM, insteadM, shortM] = [zero(), zero(), zero()]
  const [using, instead] = [new Array<number>(years).fill(0), new Array<number>(years).fill(0)]
  families.forEach(({ needM }, family) => {
    for (let year = 0; year < years; year++) {
      const [along, pulled] = [permanent[family]![year]!, oneSeason[family]![year]!]
      const first = usePerM <= insteadPerM ? Math.min(needM, along) : Math.max(0, Math.min(along, needM - pulled))
      const then = Math.min(needM - first, pulled)
      permanentM[family]![year] = first
      insteadM[family]![year] = then
      shortM[family]![year] = Math.max(0, needM - first - then)
      using[year]! += first * usePerM
      instead[year]! += then * insteadPerM
    }
  })
  const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0)
  const total = sum(building) + sum(using) + sum(instead)
  return { permanentM, insteadM, shortM, building, using, instead, total, weighed }
}
