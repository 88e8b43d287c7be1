import { cutRolls } from './cutRolls.ts'
import { labourCost } from './labourCost.ts'
import type { PartUnit } from './partRule.ts'
import type { Recipe } from './recipe.ts'
import { type BilledRun, runBill } from './runBill.ts'

/** A run with its recipe, as it is billed. */
export interface RunOfSystem {
  readonly run: BilledRun
  readonly recipe: Recipe
}

/** One part over all the runs. Pieces of what is sold in rolls are counted in metres, and in whole rolls. */
export interface PartNeeded {
  readonly part: string
  readonly unit: PartUnit
  /** Null where it can't be counted for any of the runs; of the others where it can't for some. */
  readonly count: number | null
  /** Runs that it can't be counted for. */
  readonly uncounted: number
  readonly cost: number | null
  /** Runs for which it has no price or count. */
  readonly unpriced: number
}

/** What some runs take together. */
export interface BillOfRuns {
  readonly parts: readonly PartNeeded[]
  readonly rolls: ReturnType<typeof cutRolls>
  readonly costNow: number
  readonly costPerSeason: number
  readonly minutesPerSeason: number
  readonly puttingUpMinutes: number
}

/** Adds the bills of runs; parts of one name and unit are one part, in the order first met. */
export function sumBills(runs: readonly RunOfSystem[], labourPerHour: number | null): BillOfRuns {
  const parts = new Map<string, PartNeeded>()
  const sums = { costNow: 0, costPerSeason: 0, minutesPerSeason: 0, puttingUpMinutes: 0 }
  for (const { run, recipe } of runs) {
    const bill = runBill(run, recipe)
    sums.costNow += bill.costNow
    sums.costPerSeason += bill.partsPerSeason + labourCost(bill.minutesPerSeason, { labourPerHour })
    sums.minutesPerSeason += bill.minutesPerSeason
    sums.puttingUpMinutes += bill.minutes.puttingUp
    for (const { part, unit, count, cost } of bill.parts) {
      const key = `${unit} ${part}`
      const sum = parts.get(key) ?? { part, unit, count: null, uncounted: 0, cost: null, unpriced: 0 }
      parts.set(key, {
        ...sum,
        count: count === null ? sum.count : (sum.count ?? 0) + count,
        uncounted: sum.uncounted + (count === null ? 1 : 0),
        cost: cost === null ? sum.cost : (sum.cost ?? 0) + cost,
        unpriced: sum.unpriced + (cost === null ? 1 : 0),
      })
    }
  }
  return { parts: [...parts.values()], rolls: cutRolls(runs), ...sums }
}
