import { seasonOf } from '../yield/season.ts'
import { isDue } from './isDue.ts'
import type { RunOfSystem } from './materialsOf.ts'
import type { Recipe, RecipePart } from './recipe.ts'

/** A run with its recipe, and the day that it was put up; null where nobody told. */
export type DatedRun = Omit<RunOfSystem, 'only'> & { readonly putUp: string | null }

/** What a shopping list is made out for, and what it can't tell. */
export interface RunsToBuyFor {
  /** Runs still to be put up with all their parts, then those that stand with what they need anew. */
  readonly runs: readonly RunOfSystem[]
  /** How many of them stand. */
  readonly standing: number
  /** Parts of standing runs whose seasons nobody told: they are not on the list. */
  readonly untold: readonly string[]
  /** Standing runs that nobody told the day of: only what lasts one season is on the list for them. */
  readonly undated: number
}

/**
 * What is bought for: all of the runs that are still to be put up, and of those that stand what they need anew in a
 * season that is not their first: what lasts one season, and what has lasted its seasons as that one begins.
 */
export function runsToBuyFor(
  planned: readonly DatedRun[],
  standing: readonly DatedRun[],
  season: number,
  startMonth: number,
): RunsToBuyFor {
  const firstOf = ({ putUp }: DatedRun) => (putUp === null ? null : seasonOf(putUp, startMonth))
  const older = standing.filter((one) => (firstOf(one) ?? Number.NEGATIVE_INFINITY) < season)
  const renewed = older.flatMap((one): RunOfSystem[] => {
    const only = partsAnew(one.recipe, firstOf(one), season)
    return only.size === 0 ? [] : [{ run: one.run, recipe: one.recipe, only }]
  })
  const untold = older.flatMap(({ recipe }) =>
    recipe.parts.flatMap(({ part, lastsSeasons }) => (lastsSeasons === null ? [part] : [])),
  )
  return {
    runs: [...planned.map(({ run, recipe }) => ({ run, recipe })), ...renewed],
    standing: renewed.length,
    untold: [...new Set(untold)],
    undated: older.filter(({ putUp }) => putUp === null).length,
  }
}

/** Parts that a run needs anew in a season after its first; `first` is null where it is not known. */
function partsAnew({ parts }: Recipe, first: number | null, season: number): ReadonlySet<RecipePart> {
  return new Set(
    parts.filter(({ lastsSeasons }) => {
      if (lastsSeasons === null) return false
      return first === null ? lastsSeasons <= 1 : isDue(season - first, Math.max(1, lastsSeasons))
    }),
  )
}
