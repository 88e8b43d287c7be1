import type { Recipe } from '../supports/recipe.ts'
import { moneyOf, permanentRun, pulledRun } from './runTakes.ts'

/** What a permanent run costs: to build with its renewals, by the year built; and for each metre and season in use. */
export interface PermanentCosts {
  readonly first: number
  readonly byBuilt: readonly number[]
  readonly usePerM: number
  readonly unknown: readonly string[]
}

/**
 * Costs of a permanent run over a horizon. What lasts more than one season is bought when it is built and again whenever
 * it has lasted; what lasts one season, and the work of each season, is paid for the metres in use. Putting up is paid
 * anew whenever the run has stood as long as its posts last; taking down at the end is left out, since it stays.
 */
export function permanentCosts(lengthM: number, recipe: Recipe, years: number, labourPerHour: number): PermanentCosts {
  const { building, using, unknown } = permanentRun(lengthM, recipe)
  const bySeason = Array.from({ length: years }, (_, n) => moneyOf(building(n), labourPerHour))
  const until = (seasons: number) => bySeason.slice(0, seasons).reduce((sum, money) => sum + money, 0)
  return {
    first: until(1),
    byBuilt: bySeason.map((_, built) => until(years - built)),
    usePerM: moneyOf(using, labourPerHour) / lengthM,
    unknown,
  }
}

/** What a metre of a run that is pulled every autumn costs a season: parts over the seasons they last, and all its labour. */
export function insteadPerM(
  lengthM: number,
  recipe: Recipe,
  labourPerHour: number,
): { perM: number; unknown: readonly string[] } {
  const run = pulledRun(lengthM, recipe)
  return { perM: moneyOf(run, labourPerHour) / lengthM, unknown: run.unknown }
}
