import { labourCost } from '../supports/labourCost.ts'
import type { Recipe } from '../supports/recipe.ts'
import { runBill, standsFor } from '../supports/runBill.ts'

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
  const bill = runBill({ lengthM, heightM: null, plants: null, permanent: true }, recipe)
  const labour = { labourPerHour }
  const stands = standsFor(recipe.parts)
  const lasting = bill.parts.map((part, n) => ({ cost: part.cost ?? 0, lasts: recipe.parts[n]!.lastsSeasons ?? 1 }))
  const puttingUp = labourCost(bill.minutes.puttingUp, labour)
  const kept = lasting.filter(({ lasts }) => lasts > 1)
  const first = puttingUp + kept.reduce((sum, { cost }) => sum + cost, 0)
  const byBuilt = Array.from({ length: years }, (_, built) => {
    const seasons = years - built
    return kept.reduce((sum, { cost, lasts }) => sum + cost * times(seasons, lasts), puttingUp * times(seasons, stands))
  })
  const used = lasting.filter(({ lasts }) => lasts <= 1).reduce((sum, { cost }) => sum + cost, 0)
  return {
    first,
    byBuilt,
    usePerM: (used + labourCost(bill.minutes.eachSeason, labour)) / lengthM,
    unknown: bill.unknown,
  }
}

/** What a metre of a run that is pulled every autumn costs a season: parts over the seasons they last, and all its labour. */
export function insteadPerM(
  lengthM: number,
  recipe: Recipe,
  labourPerHour: number,
): { perM: number; unknown: readonly string[] } {
  const bill = runBill({ lengthM, heightM: null, plants: null, permanent: false }, recipe)
  return {
    perM: (bill.partsPerSeason + labourCost(bill.minutesPerSeason, { labourPerHour })) / lengthM,
    unknown: bill.unknown,
  }
}

/** Times that something is bought in so many seasons. */
const times = (seasons: number, lasts: number) => Math.max(1, Math.ceil(seasons / lasts - 1e-9))
