import type { Recipe } from './recipe.ts'
import type { WorkPhase } from './workPhase.ts'

/** What the grower's own records tell of the time that a system takes in one phase of its work. */
export interface TimedWork {
  readonly system: string
  readonly phase: WorkPhase
  /** Runs and seasons that it was timed in: what was timed of one run in one season is one of them. */
  readonly times: number
  readonly minutesPerM: number
  /** Bounds of the 95 % interval; null where there are too few times to tell. */
  readonly low: number | null
  readonly high: number | null
}

/** A recipe whose phases of work take what was timed of them; those that were not timed stay as the system tells them. */
export function timedRecipe(recipe: Recipe, timed: readonly TimedWork[]): Recipe {
  const own = timed.filter(({ system }) => system === recipe.id)
  if (own.length === 0) return recipe
  return {
    ...recipe,
    work: [
      ...recipe.work.filter(({ phase }) => !own.some((one) => one.phase === phase)),
      ...own.map(({ phase, minutesPerM }) => ({ work: 'as timed', minutesPerM, phase })),
    ],
  }
}
