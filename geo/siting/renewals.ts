import type { Recipe } from '../supports/recipe.ts'
import { seasonOf } from '../yield/season.ts'
import { moneyOf, permanentRun, type Taken } from './runTakes.ts'
import type { StandingRun } from './standing.ts'

const NOTHING: Taken = { parts: [], minutes: 0 }

/**
 * What of a permanent support that stands falls due in each year of a plan, by its own system: parts that have lasted, and
 * putting up anew whenever its posts have. Null where nobody told when it was put up.
 */
export function renewalsOf(
  { system, putUp }: StandingRun,
  lengthM: number,
  recipes: readonly Recipe[],
  { from, years, month }: { readonly from: number; readonly years: number; readonly month: number },
): readonly Taken[] | null {
  const recipe = recipes.find(({ id }) => id === system)
  if (putUp === null || !recipe) return null
  const { building } = permanentRun(lengthM, recipe)
  const age = from - seasonOf(putUp, month)
  // It stands when the plan begins: what it was built with is spent.
  return Array.from({ length: years }, (_, t) => (age + t > 0 ? building(age + t) : NOTHING))
}

/** Money for all that falls due: what is overdue before it is climbed is renewed all the same. */
export const renewalMoney = (renewals: readonly Taken[], labourPerHour: number): number =>
  renewals.reduce((sum, taken) => sum + moneyOf(taken, labourPerHour), 0)
