import type { SitingBed, SitingProblem } from '../problem.ts'
import { type Column, columnOf } from './column.ts'

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

/** Years that each family must still wait, as one number: the state that a bed is in. */
export interface Waits {
  readonly count: number
  readonly step: readonly number[]
  readonly radix: readonly number[]
  /** The state a year on, when nothing is planted. */
  readonly rest: Int32Array
}

export function waitsOf({ families }: SitingProblem): Waits {
  const radix = families.map(({ returnYears }) => Math.max(1, returnYears))
  const step = radix.map((_, n) => radix.slice(0, n).reduce((product, one) => product * one, 1))
  const count = radix.reduce((product, one) => product * one, 1)
  const rest = Int32Array.from({ length: count }, (_, state) =>
    radix.reduce((sum, one, n) => sum + Math.max(0, (Math.floor(state / step[n]!) % one) - 1) * step[n]!, 0),
  )
  return { count, step, radix, rest }
}

/**
 * Prices every plan of a bed at once: the least reduced cost from each year and state on, backwards through the years
 * (dynamic programming over what waits), once after building and once before it.
 */
export function priceBed(
  problem: SitingProblem,
  at: number,
  waits: Waits,
  prices: Prices,
  isCounted: IsCounted,
): Pricing {
  const { years, families } = problem
  const bed = problem.beds[at]!
  const { count } = waits
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
  const built = new Float64Array((years + 1) * count)
  const never = new Float64Array((years + 1) * count)
  const yet = new Float64Array((years + 1) * count).fill(Number.POSITIVE_INFINITY)
  const building = Array.from({ length: years }, (_, t) =>
    bed.sites.map((site, s) =>
      t < site.earliest
        ? Number.POSITIVE_INFINITY
        : site.cost[t]! + site.weighed[t]! - prices.budget * site.first - (isCounted(at, s) ? prices.counted : 0),
    ),
  )
  const least = building.map((costs) => Math.min(Number.POSITIVE_INFINITY, ...costs))
  const onward = (into: Float64Array, t: number, state: number, worth: readonly (readonly number[])[]) => {
    const rest = waits.rest[state]!
    let value = into[(t + 1) * count + rest]!
    for (let f = 0; f < families.length; f++) {
      if (Math.floor(state / waits.step[f]!) % waits.radix[f]! !== 0) continue
      const one = worth[f]![t]! + into[(t + 1) * count + rest + (waits.radix[f]! - 1) * waits.step[f]!]!
      if (one < value) value = one
    }
    return value
  }
  for (let t = years - 1; t >= 0; t--)
    for (let state = 0; state < count; state++) {
      built[t * count + state] = onward(built, t, state, along)
      never[t * count + state] = onward(never, t, state, pulled)
      yet[t * count + state] = Math.min(onward(yet, t, state, pulled), least[t]! + built[t * count + state]!)
    }
  const start = startOf(bed, waits)
  const own = -prices.bed[at]!
  const leastBuilt = yet[start]! + own
  const all = bed.fixed ? leastBuilt : Math.min(leastBuilt, never[start]! + own)

  type Phase = 'built' | 'never' | 'yet'
  const valueIn: Readonly<Record<Phase, Float64Array>> = { built, never, yet }
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
    if (!(sum + valueIn[phase][t * count + state]! <= limit)) return
    if (t === years) {
      yield columnOf(problem, { bed: at, site, built: since, climbs: [...climbs] })
      return
    }
    if (phase === 'yet')
      for (let s = 0; s < bed.sites.length; s++) yield* onFrom(t, state, sum + building[t]![s]!, limit, 'built', s, t)
    const worth = phase === 'built' ? along : pulled
    const rest = waits.rest[state]!
    climbs.push(null)
    yield* onFrom(t + 1, rest, sum, limit, phase, site, since)
    climbs.pop()
    for (let f = 0; f < families.length; f++) {
      if (Math.floor(state / waits.step[f]!) % waits.radix[f]! !== 0) continue
      climbs.push(f)
      const then = rest + (waits.radix[f]! - 1) * waits.step[f]!
      yield* onFrom(t + 1, then, sum + worth[f]![t]!, limit, phase, site, since)
      climbs.pop()
    }
  }
  function* plans(limit: number, builtOnly: boolean): Generator<Column> {
    climbs.length = 0
    if (!builtOnly && !bed.fixed) yield* onFrom(0, start, own, limit, 'never', null, years)
    yield* onFrom(0, start, own, limit, 'yet', null, years)
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

const startOf = (bed: SitingBed, { step, radix }: Waits): number =>
  bed.freeFrom.reduce((sum, years, n) => sum + Math.min(radix[n]! - 1, Math.max(0, years)) * step[n]!, 0)
