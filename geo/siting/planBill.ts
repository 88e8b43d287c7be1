import { labourCost } from '../supports/labourCost.ts'
import type { PartUnit } from '../supports/partRule.ts'
import type { PlanCost } from './costIn.ts'
import type { Plan } from './problem.ts'
import { type PartTaken, permanentRun, pulledRun, type Taken } from './runTakes.ts'
import type { SitingReading } from './sitingReading.ts'

/**
 * What a part is for: building permanent supports or renewing them; climbing along them; supports that are pulled in
 * autumn.
 */
export type PartUse = 'building' | 'climbing' | 'one season'

/** A part in one year of a plan; unrounded, so that pieces may come in parts where they go by metres climbed or wear out. */
export interface YearPart {
  readonly use: PartUse
  readonly part: string
  readonly unit: PartUnit
  /** Null for what is used up in its season. */
  readonly lasts_seasons: number | null
  /** How much is set up. Null, as the next two, where no rule counts it or it has no price. */
  readonly needed: number | null
  /** How much is bought new; of what is put up again every spring, the share that wears out in a season. */
  readonly bought: number | null
  readonly cost: number | null
}

/** What a plan takes in one year; its parts and labour come to the plan's cost of that year. */
export interface YearBill {
  readonly year: number
  readonly parts: readonly YearPart[]
  readonly parts_cost: number
  readonly minutes: number
  readonly labour_cost: number
}

/**
 * Materials and labour of a plan by year, by the Supports bill: each row it builds in the year that it is built and
 * whenever a part has lasted; what is climbed and what is pulled in autumn by the metres of that year, of runs as long as
 * the farm's usual bed. Of what stands already the renewals.
 */
export function planBill(reading: SitingReading, plan: Plan, cost: PlanCost): YearBill[] {
  const { asked, problem, beds, recipes, usualM } = reading
  const lasting = plan.flatMap(({ bed, site, built }) => {
    if (site === null) return []
    const { side } = problem.beds[bed]!.sites[site]!
    const seen = beds[bed]!.sites.find((one) => one.side === side)!
    if (seen.stands) return [(t: number) => seen.renewals[t]]
    const run = permanentRun(seen.lengthM, recipes.system)
    return [(t: number) => (t < built ? undefined : run.building(t - built))]
  })
  const { using } = permanentRun(usualM, recipes.system)
  const pulled = pulledRun(usualM, recipes.instead)
  const metres = (of: PlanCost['permanentM'], t: number) => of.reduce((sum, byYear) => sum + byYear[t]!, 0)
  return Array.from({ length: problem.years }, (_, t) => {
    const some: readonly (readonly [PartUse, Taken, number])[] = [
      ...lasting.flatMap((takenIn) => {
        const taken = takenIn(t)
        return taken ? [['building', taken, 1] as const] : []
      }),
      ['climbing', using, metres(cost.permanentM, t) / usualM],
      ['one season', pulled, metres(cost.insteadM, t) / usualM],
    ]
    const parts = new Map<string, YearPart>()
    for (const [use, taken, times] of some)
      if (times > 0) for (const part of taken.parts) merge(parts, use, part, times)
    const minutes = some.reduce((sum, [, taken, times]) => sum + taken.minutes * times, 0)
    const list = [...parts.values()].filter(({ needed }) => needed !== 0)
    return {
      year: asked.from + t,
      parts: list,
      parts_cost: list.reduce((sum, { cost }) => sum + (cost ?? 0), 0),
      minutes,
      labour_cost: labourCost(minutes, { labourPerHour: asked.labour_per_hour }),
    }
  })
}

/** Adds so many times a part to those of its use, name, unit and life. */
function merge(parts: Map<string, YearPart>, use: PartUse, { part, unit, lasts, ...more }: PartTaken, times: number) {
  const key = JSON.stringify([use, part, unit, lasts])
  const was = parts.get(key)
  const add = (which: 'needed' | 'bought' | 'cost') => {
    const one = more[which]
    return one === null ? (was?.[which] ?? null) : (was?.[which] ?? 0) + one * times
  }
  parts.set(key, {
    use,
    part,
    unit,
    lasts_seasons: lasts > 1 ? lasts : null,
    needed: add('needed'),
    bought: add('bought'),
    cost: add('cost'),
  })
}
