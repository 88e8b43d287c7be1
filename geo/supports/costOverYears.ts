import { isDue } from './isDue.ts'
import { labourCost } from './labourCost.ts'
import type { Recipe } from './recipe.ts'
import { type BilledRun, runBill, standsFor } from './runBill.ts'

/** What a run of a system costs, season by season: parts when they are bought, labour when it is done. */
export interface CostOverYears {
  readonly system: string
  readonly name: string
  readonly permanent: boolean
  /** Spent in each season, the first first. */
  readonly bySeason: readonly number[]
  /** All spent up to and with each season. */
  readonly total: readonly number[]
  readonly unknown: readonly string[]
}

/**
 * Costs over some seasons of one run in one system: every part is bought in the first season and again whenever it has
 * lasted its seasons; one-season runs are put up and taken down each season, permanent ones once as long as they stand.
 */
export function costOverYears(
  run: Omit<BilledRun, 'permanent'>,
  { recipe, permanent }: { readonly recipe: Recipe; readonly permanent: boolean },
  seasons: number,
  settings: { readonly labourPerHour: number | null },
): CostOverYears {
  const bill = runBill({ ...run, permanent }, recipe)
  const standing = permanent ? standsFor(recipe.parts) : 1
  const bySeason = Array.from({ length: seasons }, (_, n) => {
    const bought = bill.parts.reduce((sum, part, at) => {
      const lasts = Math.max(1, recipe.parts[at]!.lastsSeasons ?? 1)
      return sum + (isDue(n, lasts) ? (part.cost ?? 0) : 0)
    }, 0)
    const puttingUp = isDue(n, standing) ? bill.minutes.puttingUp : 0
    const down = isDue(n + 1, standing) ? bill.minutes.takingDown : 0
    return bought + labourCost(puttingUp + bill.minutes.eachSeason + down, settings)
  })
  let sum = 0
  const total = bySeason.map((cost) => {
    sum += cost
    return sum
  })
  return { system: recipe.id, name: recipe.name, permanent, bySeason, total, unknown: bill.unknown }
}

/** Season (1 for the first) in which a permanent run has cost no more than the one-season runs in its place, and stays so; null where that is not within the seasons looked at. */
export function paidBackIn(permanent: CostOverYears, oneSeason: CostOverYears): number | null {
  let season: number | null = null
  for (let n = permanent.total.length - 1; n >= 0; n--) {
    if (permanent.total[n]! > oneSeason.total[n]! + 1e-9) break
    season = n + 1
  }
  return season
}
