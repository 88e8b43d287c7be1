import { compareGroups, type GroupYield } from '../yield/compareGroups.ts'
import type { Recipe } from './recipe.ts'
import type { WornRun } from './supportsWear.ts'
import type { TimedWork } from './timedRecipe.ts'
import { ENOUGH, SEED } from './timedWork.ts'

/** How runs of a system wore. `rate.kgPerRowM` is breakages for each metre and season. */
export interface SystemWear {
  readonly system: string
  readonly name: string
  readonly runs: number
  readonly rate: GroupYield | null
  /** Enough runs, with something seen broken, for its range to mean something. */
  readonly tells: boolean
  /** Minutes for each metre and one-season run, as its recipe tells. */
  readonly minutesPerM: number
  readonly timed: readonly TimedWork[]
}

/** Breakages over metres and seasons by system, with a bootstrap over its runs, its recipe’s minutes and those timed. */
export function wearBySystem(
  runs: readonly WornRun[],
  recipes: readonly Recipe[],
  timed: readonly TimedWork[],
): SystemWear[] {
  const dated = runs.filter(({ seasons, lengthM }) => seasons !== null && lengthM > 0)
  const rates = compareGroups(
    dated.map((run) => ({ group: run.system, kg: run.breakages.length, rowM: run.lengthM * run.seasons! })),
    SEED,
  )
  return recipes.flatMap((recipe) => {
    const own = runs.filter(({ system }) => system === recipe.id)
    if (own.length === 0) return []
    const rate = rates.find(({ group }) => group === recipe.id) ?? null
    return {
      system: recipe.id,
      name: recipe.name,
      runs: own.length,
      rate,
      tells: rate !== null && rate.plantings >= ENOUGH && rate.kgPerRowM > 0,
      minutesPerM: recipe.work.reduce((sum, { minutesPerM }) => sum + (minutesPerM ?? 0), 0),
      timed: timed.filter(({ system }) => system === recipe.id),
    }
  })
}
