import type { SitingProblem } from '../problem.ts'
import { type Column, columnOf } from './column.ts'
import type { Waiting } from './waiting.ts'

/** What the program's limits are worth at the moment: money for a unit more. */
export interface Prices {
  /** By bed, family and year: its row along a permanent support, and along one of one season. */
  readonly permanent: readonly (readonly (readonly number[])[])[]
  readonly instead: readonly (readonly (readonly number[])[])[]
  readonly bed: readonly number[]
  readonly budget: number
  /** Of building at a site that a side condition counts. */
  readonly counted: number
}

export type IsCounted = (bed: number, site: number) => boolean

/** A bed's plans, told by their reduced cost: their own cost less what they are worth at the prices. */
export interface Pricing {
  /** The least reduced cost of all plans, and of those that build. */
  readonly least: number
  readonly leastBuilt: number
  /** A plan of the least reduced cost of all, or of those that build; null where there is none. */
  best(built: boolean): Column | null
  /** Every plan, or every one that builds, whose reduced cost is at most so much; null where there are more than `most`. */
  within(limit: number, which: 'all' | 'built', most: number): Column[] | null
}

/**
 * Prices every plan of a bed at once: the least reduced cost from each year and state on, backwards through the years
 * (dynamic programming over what waits), once after building and once before it.
 */
export function priceBed(
  problem: SitingProblem,
  at: number,
  waiting: Waiting,
  prices: Prices,
  isCounted: IsCounted,
): Pricing {
  const { years, families } = problem
  const bed = problem.beds[at]!
  const { counts, rest, after } = waiting
  const besides = bed.rows - 1
  const worthOf = (permanent: number, rows: number) =>
    families.map((_, f) =>
      Array.from(
        { length: years },
        (_, t) => bed.burden[f]![t]! - permanent * prices.permanent[at]![f]![t]! - rows * prices.instead[at]![f]![t]!,
      ),
    )
  const along = worthOf(1, besides)
  const pulled = worthOf(0, bed.rows)
  // Value of the years from t on in a state: built, not yet built (and to be built), never built.
  const values = (last: number) =>
    counts.map((count, t) => (t === years ? new Float64Array(count).fill(last) : new Float64Array(count)))
  const [built, never, yet] = [values(0), values(0), values(Number.POSITIVE_INFINITY)]
  const building = Array.from({ length: years }, (_, t) =>
    bed.sites.map((site, s) =>
      t < site.earliest
        ? Number.POSITIVE_INFINITY
        : site.cost[t]! + site.weighed[t]! - prices.budget * site.first - (isCounted(at, s) ? prices.counted : 0),
    ),
  )
  const least = building.map((costs) => Math.min(Number.POSITIVE_INFINITY, ...costs))
  const onward = (into: readonly Float64Array[], t: number, state: number, worth: readonly (readonly number[])[]) => {
    let value = into[t + 1]![rest[t]![state]!]!
    for (let f = 0; f < families.length; f++) {
      const then = after[t]![state * families.length + f]!
      if (then < 0) continue
      const one = worth[f]![t]! + into[t + 1]![then]!
      if (one < value) value = one
    }
    return value
  }
  const builds = least.some((cost) => cost < Number.POSITIVE_INFINITY)
  for (let t = years - 1; t >= 0; t--)
    for (let state = 0; state < counts[t]!; state++) {
      never[t]![state] = onward(never, t, state, pulled)
      if (builds) built[t]![state] = onward(built, t, state, along)
      yet[t]![state] = builds
        ? Math.min(onward(yet, t, state, pulled), least[t]! + built[t]![state]!)
        : Number.POSITIVE_INFINITY
    }
  const own = -prices.bed[at]!
  const leastBuilt = yet[0]![0]! + own
  const all = bed.fixed ? leastBuilt : Math.min(leastBuilt, never[0]![0]! + own)

  type Phase = 'built' | 'never' | 'yet'
  const valueIn: Readonly<Record<Phase, readonly Float64Array[]>> = { built, never, yet }
  const climbs: (number | null)[] = []
  /** Every plan whose reduced cost is at most the limit, from a year and state on. */
  function* onFrom(
    t: number,
    state: number,
    sum: number,
    limit: number,
    phase: Phase,
    site: number | null,
    since: number,
  ): Generator<Column> {
    if (!(sum + valueIn[phase][t]![state]! <= limit)) return
    if (t === years) {
      yield columnOf(problem, { bed: at, site, built: since, climbs: [...climbs] })
      return
    }
    if (phase === 'yet')
      for (let s = 0; s < bed.sites.length; s++) yield* onFrom(t, state, sum + building[t]![s]!, limit, 'built', s, t)
    const worth = phase === 'built' ? along : pulled
    climbs.push(null)
    yield* onFrom(t + 1, rest[t]![state]!, sum, limit, phase, site, since)
    climbs.pop()
    for (let f = 0; f < families.length; f++) {
      const then = after[t]![state * families.length + f]!
      if (then < 0 || worth[f]![t] === Number.POSITIVE_INFINITY) continue
      climbs.push(f)
      yield* onFrom(t + 1, then, sum + worth[f]![t]!, limit, phase, site, since)
      climbs.pop()
    }
  }
  function* plans(limit: number, builtOnly: boolean): Generator<Column> {
    climbs.length = 0
    if (!builtOnly && !bed.fixed) yield* onFrom(0, 0, own, limit, 'never', null, years)
    yield* onFrom(0, 0, own, limit, 'yet', null, years)
  }
  return {
    least: all,
    leastBuilt,
    best(builtOnly) {
      const value = builtOnly ? leastBuilt : all
      if (!(value < Number.POSITIVE_INFINITY)) return null
      const limit = value + 1e-9 * Math.max(1, Math.abs(value))
      return plans(limit, builtOnly).next().value ?? null
    },
    within(limit, which, most) {
      const found: Column[] = []
      for (const plan of plans(limit, which === 'built')) {
        if (found.length >= most) return null
        found.push(plan)
      }
      return found
    },
  }
}
