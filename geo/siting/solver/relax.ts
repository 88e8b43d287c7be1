import type { Highs } from 'highs'
import type { Plan, SitingProblem } from '../problem.ts'
import { type Column, columnOf, keyOf } from './column.ts'
import { type Prices, type Pricing, priceBed } from './price.ts'
import { addColumns, bareModel, type ProgramOptions, pricesFrom } from './program.ts'
import { waitingOf } from './waiting.ts'

/** The program solved with plans in parts: no whole plan costs less than `bound`. */
export interface Relaxed {
  readonly bound: number
  /** Every plan that was looked at, those of the dive among them. */
  readonly columns: readonly Column[]
  /** By bed, at the prices of the bound. */
  readonly pricing: readonly Pricing[]
  readonly prices: Prices
  /** Rows built, in parts. */
  readonly built: number
  /** A whole plan got from the parts; null where the search was ended before. */
  readonly dived: Plan | null
}

/** Ends as soon as plans not seen yet could lower the value by no more than this part of it. */
const CLOSE = 1e-6
/** While diving, rough prices do. */
const CLOSE_DIVING = 1e-3
const MOST_ROUNDS = 400
/** Plans so nearly whole are taken as whole in a dive. */
const NEARLY = 0.9
const NOTHING = 1e-9

/**
 * Solves the program with plans in parts by column generation: plans are added as long as one is worth more at the
 * prices than it costs (Dantzig & Wolfe 1960; the bound is Lagrange's, and holds whenever it stops). Then dives: the plan
 * that is nearest to whole is taken, and the rest solved again, until every bed has one or none. Null where even in parts
 * the limits that are not money can't be met: a fixed row beyond the budget.
 */
export function relax(
  highs: Highs,
  problem: SitingProblem,
  options: ProgramOptions & { readonly goOn: () => boolean },
): Relaxed | null {
  const { counted, roundings, goOn } = options
  const isCounted = counted?.is ?? (() => false)
  const waiting = waitingOf(problem)
  const first = 3 * problem.families.length * problem.years
  const columns: Column[] = []
  const known = new Set<string>()
  const taken = new Set<number>()
  const model = bareModel(highs, problem, options)
  const add = (fresh: readonly Column[]) => {
    const unseen = fresh.filter((column) => !known.has(keyOf(column)))
    for (const column of unseen) known.add(keyOf(column))
    addColumns(model, problem, unseen, options)
    columns.push(...unseen)
    return unseen.length
  }
  /** Adds plans until none is worth it for the beds still open; null where the limits can't be met. */
  const generate = (close: number) => {
    let bound = Number.NEGATIVE_INFINITY
    for (let round = 0; ; round++) {
      model.run()
      if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return null
      const value = model.getObjectiveValue()
      const { rowDual, colValue } = model.getSolution()
      const prices = pricesFrom(problem, roundings, rowDual)
      const pricing = problem.beds.map((_, n) =>
        taken.has(n) ? null : priceBed(problem, n, waiting[n]!, prices, isCounted),
      )
      bound = Math.max(bound, value + pricing.reduce((sum, bed) => sum + Math.min(0, bed?.least ?? 0), 0))
      const done = value - bound <= close * Math.max(1, Math.abs(value)) || round >= MOST_ROUNDS || !goOn()
      const fresh = done ? [] : pricing.flatMap((bed) => (bed ? worthwhile(bed) : []))
      if (add(fresh) === 0) return { bound, prices, pricing, parts: colValue.slice(first) }
    }
  }
  /** Takes plans as whole, the nearest to it first; null where it was ended, or leads nowhere. */
  const dive = (parts: Float64Array): Plan | null => {
    for (let now: Float64Array = parts; ; ) {
      const open = columns
        .map((column, n) => ({ n, bed: column.bed, part: now[n] ?? 0 }))
        .filter(({ bed, part }) => part > NOTHING && !taken.has(bed))
        .sort((a, b) => b.part - a.part)
      if (open.every(({ part }) => part > 1 - NOTHING)) return columns.filter((_, n) => (now[n] ?? 0) > 0.5)
      for (const { n, bed, part } of open) {
        if (taken.has(bed) || (part < NEARLY && part < open[0]!.part)) continue
        taken.add(bed)
        model.changeColBounds(first + n, 1, 1)
      }
      const then = goOn() ? generate(CLOSE_DIVING) : null
      if (!then) return null
      now = then.parts
    }
  }
  try {
    add(bareBuildings(problem))
    const whole = generate(CLOSE)
    if (!whole) return null
    const { bound, prices, parts } = whole
    const pricing = whole.pricing as Pricing[]
    const built = columns.reduce((sum, { site }, n) => (site === null ? sum : sum + (parts[n] ?? 0)), 0)
    const dived = dive(parts)
    return { bound, columns, pricing, prices, built, dived }
  } finally {
    model.dispose()
  }
}

function worthwhile(bed: Pricing): Column[] {
  const plans = [bed.least < -NOTHING ? bed.best(false) : null, bed.leastBuilt < -NOTHING ? bed.best(true) : null]
  return plans.flatMap((plan) => plan ?? [])
}

/** Each site built in the first year it can be, nothing climbing: what lets fixed rows be met from the start. */
function bareBuildings(problem: SitingProblem): Column[] {
  const climbs = new Array<null>(problem.years).fill(null)
  return problem.beds.flatMap(({ sites }, bed) =>
    sites.flatMap(({ earliest }, site) =>
      earliest < problem.years ? [columnOf(problem, { bed, site, built: earliest, climbs })] : [],
    ),
  )
}
