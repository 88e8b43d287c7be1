import { cutRolls } from './cutRolls.ts'
import type { PartUnit } from './partRule.ts'
import type { Recipe, RecipePart } from './recipe.ts'
import { type BilledRun, runBill } from './runBill.ts'

/** A run with its recipe, as it is billed. */
export interface RunOfSystem {
  readonly run: BilledRun
  readonly recipe: Recipe
  /** Of its recipe's parts those that are wanted; all where it is left out. */
  readonly only?: ReadonlySet<RecipePart>
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

/** Parts that some runs take together, and their rolls. */
export interface Materials {
  readonly parts: readonly PartNeeded[]
  readonly rolls: ReturnType<typeof cutRolls>
  readonly costNow: number
}

/** Adds the parts of runs; those of one name and unit are one part, in the order first met. */
export function materialsOf(runs: readonly RunOfSystem[]): Materials {
  const parts = new Map<string, PartNeeded>()
  let costNow = 0
  for (const { run, recipe, only } of runs)
    for (const [n, { part, unit, count, cost }] of runBill(run, recipe).parts.entries()) {
      if (only && !only.has(recipe.parts[n]!)) continue
      const key = `${unit} ${part}`
      const sum = parts.get(key) ?? { part, unit, count: null, uncounted: 0, cost: null, unpriced: 0 }
      costNow += cost ?? 0
      parts.set(key, {
        ...sum,
        count: count === null ? sum.count : (sum.count ?? 0) + count,
        uncounted: sum.uncounted + (count === null ? 1 : 0),
        cost: cost === null ? sum.cost : (sum.cost ?? 0) + cost,
        unpriced: sum.unpriced + (cost === null ? 1 : 0),
      })
    }
  return { parts: [...parts.values()], rolls: cutRolls(runs), costNow }
}
