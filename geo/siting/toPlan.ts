import type { SitedRow, SitingPlan } from './answer.ts'
import { costIn } from './costIn.ts'
import { lotsToLift } from './lotsToLift.ts'
import { planBill } from './planBill.ts'
import type { Plan } from './problem.ts'
import type { SitingReading } from './sitingReading.ts'

/** A choice in the farm's words and money. */
export function toPlan(reading: SitingReading, plan: Plan): SitingPlan {
  const { asked, problem, beds } = reading
  const { years, families, insteadPerM } = problem
  const cost = costIn(problem, plan)
  const yearOf = (t: number) => String(asked.from + t)
  const familyOf = (climbs: readonly (number | null)[], which: (t: number) => boolean) =>
    Object.fromEntries(
      climbs.flatMap((family, t) => (family !== null && which(t) ? [[yearOf(t), families[family]!.name]] : [])),
    )
  const inOrder = [...plan].sort((a, b) => a.bed - b.bed)
  const rows = inOrder.flatMap(({ bed: n, site, built, climbs }): SitedRow[] => {
    if (site === null) return []
    const side = problem.beds[n]!.sites[site]!.side
    const seen = beds[n]!.sites.find((one) => one.side === side)!
    return [
      {
        bed: beds[n]!.id,
        side,
        length_m: seen.lengthM,
        built: asked.from + (seen.stands ? 0 : built),
        stands: seen.stands,
        years: familyOf(climbs, (t) => t >= built),
      },
    ]
  })
  const oneSeason = inOrder
    .map(({ bed, built, climbs }) => ({ bed: beds[bed]!.id, years: familyOf(climbs, (t) => t < built) }))
    .filter(({ years: some }) => Object.keys(some).length > 0)
  const materials = planBill(reading, plan, cost)
  // Renewals are paid in the year they fall due: the choice itself reckons them with the building.
  const byYear = materials.map((bill) => bill.parts_cost + bill.labour_cost)
  const insteadYear = families.reduce((sum, { needM }) => sum + needM, 0) * insteadPerM
  return {
    rows,
    one_season: oneSeason,
    lift: lotsToLift(reading, plan),
    cost: {
      total: cost.total,
      by_year: Object.fromEntries(byYear.map((money, t) => [yearOf(t), money])),
      instead_total: insteadYear * years,
    },
    weighed: cost.weighed,
    metres: families.flatMap(({ name }, f) =>
      Array.from({ length: years }, (_, t) => ({
        year: asked.from + t,
        family: name,
        permanent_m: cost.permanentM[f]![t]!,
        one_season_m: cost.insteadM[f]![t]!,
      })),
    ),
    payback_year: rows.length === 0 ? null : paybackYear(byYear, insteadYear, asked.from),
    materials,
  }
}

/** First year by whose end all that was spent is no more than pulling every autumn, from then on for good. */
function paybackYear(byYear: readonly number[], insteadYear: number, from: number): number | null {
  let spent = 0
  const ahead = byYear.map((money, t) => {
    spent += money
    return spent <= insteadYear * (t + 1) + 1e-9
  })
  const last = ahead.lastIndexOf(false)
  return last === ahead.length - 1 ? null : from + last + 1
}
