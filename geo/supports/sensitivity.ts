import { type CostOverYears, costOverYears, paidBackIn } from './costOverYears.ts'
import type { Recipe } from './recipe.ts'
import type { BilledRun } from './runBill.ts'

/** What a decision between a permanent and a one-season system hangs on. */
export interface Comparison {
  readonly run: Omit<BilledRun, 'permanent'>
  readonly permanent: Recipe
  readonly oneSeason: Recipe
  readonly seasons: number
  readonly labourPerHour: number
}

/** What the permanent run saves over the seasons with one assumption a third lower and a third higher, and when it has paid. */
export interface Swing {
  readonly assumption: string
  readonly low: { readonly saves: number; readonly paidBackIn: number | null }
  readonly high: { readonly saves: number; readonly paidBackIn: number | null }
}

const THIRD = 1 / 3

const ASSUMPTIONS: readonly (readonly [string, (of: Comparison, by: number) => Comparison])[] = [
  ['price of labour', (of, by) => ({ ...of, labourPerHour: of.labourPerHour * by })],
  ['prices of the permanent parts', (of, by) => ({ ...of, permanent: priced(of.permanent, by) })],
  ['prices of the one-season parts', (of, by) => ({ ...of, oneSeason: priced(of.oneSeason, by) })],
  ['seasons that the permanent parts last', (of, by) => ({ ...of, permanent: lasting(of.permanent, by) })],
  ['seasons that the one-season parts last', (of, by) => ({ ...of, oneSeason: lasting(of.oneSeason, by) })],
  ['work on the permanent run', (of, by) => ({ ...of, permanent: worked(of.permanent, by) })],
  ['work on the one-season run', (of, by) => ({ ...of, oneSeason: worked(of.oneSeason, by) })],
]

/** Each assumption moved alone, the one that moves the saving most first. */
export function sensitivity(of: Comparison): Swing[] {
  const swings = ASSUMPTIONS.map(([assumption, change]) => ({
    assumption,
    low: outcome(change(of, 1 - THIRD)),
    high: outcome(change(of, 1 + THIRD)),
  }))
  const width = ({ low, high }: Swing) => Math.abs(high.saves - low.saves)
  return swings.sort((a, b) => width(b) - width(a))
}

/** What the permanent run saves over all the seasons; below zero where it costs more. */
export function outcome(of: Comparison): { saves: number; paidBackIn: number | null } {
  const [permanent, oneSeason] = bothOverYears(of)
  return { saves: oneSeason.total.at(-1)! - permanent.total.at(-1)!, paidBackIn: paidBackIn(permanent, oneSeason) }
}

export function bothOverYears({
  run,
  permanent,
  oneSeason,
  seasons,
  labourPerHour,
}: Comparison): [CostOverYears, CostOverYears] {
  return [
    costOverYears(run, { recipe: permanent, permanent: true }, seasons, { labourPerHour }),
    costOverYears(run, { recipe: oneSeason, permanent: false }, seasons, { labourPerHour }),
  ]
}

const priced = (recipe: Recipe, by: number): Recipe => ({
  ...recipe,
  parts: recipe.parts.map((part) => ({ ...part, unitCost: part.unitCost === null ? null : part.unitCost * by })),
})
const lasting = (recipe: Recipe, by: number): Recipe => ({
  ...recipe,
  parts: recipe.parts.map((part) => ({
    ...part,
    lastsSeasons: part.lastsSeasons === null ? null : part.lastsSeasons * by,
  })),
})
const worked = (recipe: Recipe, by: number): Recipe => ({
  ...recipe,
  work: recipe.work.map((work) => ({ ...work, minutesPerM: work.minutesPerM === null ? null : work.minutesPerM * by })),
})
