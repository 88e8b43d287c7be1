import { isDue } from '../supports/isDue.ts'
import { labourCost } from '../supports/labourCost.ts'
import type { PartUnit } from '../supports/partRule.ts'
import type { Recipe } from '../supports/recipe.ts'
import { type BilledPart, runBill, standsFor } from '../supports/runBill.ts'

/** A part in one season of a run. Null where it can't be counted or has no price. */
export interface PartTaken {
  readonly part: string
  readonly unit: PartUnit
  /** Seasons that it lasts; at most 1 for what is used up in one. */
  readonly lasts: number
  /** How much of it is set up, and how much of that is bought new: of what is put up again every spring, the share that wears out. */
  readonly needed: number | null
  readonly bought: number | null
  /** Of what is bought. */
  readonly cost: number | null
}

/** What a run takes in one season. */
export interface Taken {
  readonly parts: readonly PartTaken[]
  readonly minutes: number
}

export interface PermanentRun {
  /** In its season n, 0 for that in which it is built: lasting parts that are due, and putting up while posts are. */
  readonly building: (n: number) => Taken
  /** In a season in which all of it is climbed: parts that last one, and the work of a season. */
  readonly using: Taken
  readonly unknown: readonly string[]
}

/** What a permanent run takes, by the Supports bill. Taking down at the end is left out, since it stays. */
export function permanentRun(lengthM: number, recipe: Recipe): PermanentRun {
  const bill = runBill({ lengthM, heightM: null, plants: null, permanent: true }, recipe)
  const stands = standsFor(recipe.parts)
  const parts = bill.parts.map((part, n) => bought(part, recipe.parts[n]!.lastsSeasons ?? 1, 1))
  return {
    building: (n) => ({
      parts: parts.filter(({ lasts }) => lasts > 1 && isDue(n, lasts)),
      minutes: isDue(n, stands) ? bill.minutes.puttingUp : 0,
    }),
    using: { parts: parts.filter(({ lasts }) => lasts <= 1), minutes: bill.minutes.eachSeason },
    unknown: bill.unknown,
  }
}

/** What a run that is pulled every autumn takes in a season: what lasts longer is bought as it wears out. */
export function pulledRun(lengthM: number, recipe: Recipe): Taken & { readonly unknown: readonly string[] } {
  const bill = runBill({ lengthM, heightM: null, plants: null, permanent: false }, recipe)
  const parts = bill.parts.map((part, n) => {
    const lasts = Math.max(1, recipe.parts[n]!.lastsSeasons ?? 1)
    return bought(part, lasts, 1 / lasts)
  })
  return { parts, minutes: bill.minutesPerSeason, unknown: bill.unknown }
}

/** Money for parts and labour; what has no price is left out. */
export const moneyOf = ({ parts, minutes }: Taken, labourPerHour: number): number =>
  parts.reduce((sum, { cost }) => sum + (cost ?? 0), labourCost(minutes, { labourPerHour }))

const bought = ({ part, unit, count, cost }: BilledPart, lasts: number, share: number): PartTaken => ({
  part,
  unit,
  lasts,
  needed: count,
  bought: count === null ? null : count * share,
  cost: cost === null ? null : cost * share,
})
