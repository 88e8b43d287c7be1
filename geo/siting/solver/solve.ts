import type { Highs } from 'highs'
import { costIn } from '../costIn.ts'
import type { Plan, SitingProblem } from '../problem.ts'
import { better } from './better.ts'
import { choose } from './choose.ts'
import { type Column, keyOf } from './column.ts'
import { type Counted, type ProgramOptions, roundingsOf } from './program.ts'
import { type Relaxed, relax } from './relax.ts'

/** How far the choice has come; `comparing` is after it, when other plans are looked for. Values are money, weights counted in; null while there is none. */
export interface Progress {
  readonly doing: 'bounding' | 'choosing' | 'proving' | 'comparing'
  readonly best: number | null
  readonly bound: number | null
}

export interface SolveOptions {
  /** Ends when the plan is known to be within this part of the best. */
  readonly gap: number
  readonly seconds: number
  /** How many sites of a set are to be built. */
  readonly counted?: Counted | null
  /** What a metre that is short weighs; where it is not told, more than anything that could be done against it. */
  readonly shortPerM?: number
  /** Now in ms, by a clock that does not go back. */
  readonly clock: () => number
  /** Called now and then; false ends the search with the best plan so far. */
  readonly tell?: (progress: Progress, plan: Plan | null) => boolean
}

export interface Solved {
  readonly plan: Plan
  /** Money and weights of the plan. */
  readonly value: number
  /** What no plan comes below. */
  readonly bound: number
  /** (value − bound) / value; 0 where it is proved to be the best. */
  readonly gap: number
  /** Metres wanted that have nowhere to stand, over all families and years. */
  readonly shortM: number
  /** The relaxed program, to ask what else would cost. */
  readonly relaxed: Relaxed
}

const MOST_COLUMNS = 30_000
/** A gap below this is rounding. */
const ROUNDING = 1e-7
/** Metres short beyond this are short, below it they are rounding. */
export const SHORT_M = 1e-6

/**
 * Chooses: first a bound and plans in parts (`relax`), whole plans dived for from these, with as many rows built as the
 * parts come to; then betters the best (`better`); at last, with every plan that could still be part of a better choice,
 * branch and bound, which proves it. Null where the fixed rows can't be paid or the side condition can't be met.
 */
export function solveSiting(highs: Highs, problem: SitingProblem, options: SolveOptions): Solved | null {
  const { gap: wanted, seconds, clock, tell = () => true, counted = null } = options
  const until = clock() + seconds * 1000
  const program: ProgramOptions = {
    counted,
    shortPerM: options.shortPerM ?? shortPrice(problem),
    roundings: roundingsOf(problem),
  }
  let [plan, value, bound, going]: [Plan | null, number, number, boolean] = [
    null,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    true,
  ]
  const left = () => (going ? Math.max(0, (until - clock()) / 1000) : 0)
  const goOn = (doing: Progress['doing']) => {
    going &&= tell({ doing, best: plan && value, bound: bound > Number.NEGATIVE_INFINITY ? bound : null }, plan)
    return left() > 0
  }
  let short = 0
  const reckon = (of: Plan) => {
    const { total, weighed, shortM } = costIn(problem, of)
    const sum = shortM.flat().reduce((all, m) => all + m, 0)
    return { value: total + weighed + sum * program.shortPerM, short: sum }
  }
  const take = (found: Plan | null) => {
    const to = found && reckon(found)
    if (to && to.value < value) [plan, value, short] = [found, to.value, to.short]
    return gapOf(value, bound) > wanted
  }
  const relaxed = relax(highs, problem, { ...program, goOn: () => goOn('bounding') })
  if (!relaxed) return null
  bound = relaxed.bound
  const columns = new Map(relaxed.columns.map((column) => [keyOf(column), column]))
  if (take(relaxed.dived) && !counted)
    for (const rows of [Math.round(relaxed.built), ...aside(relaxed.built)]) {
      if (left() === 0 || rows < 0) break
      const some: Counted = { is: () => true, least: rows, most: rows }
      const dive = relax(highs, problem, { ...program, counted: some, goOn: () => goOn('choosing') })
      for (const column of dive?.columns ?? []) columns.set(keyOf(column), column)
      if (!take(dive?.dived ?? null)) break
    }
  const search = (among: readonly Column[], part: number) =>
    choose(highs, problem, program, among, {
      seconds: left() * part,
      gap: Math.min(wanted, 1e-6),
      start: plan ?? [],
      goOn: (best, low) => goOn('proving') && gapOf(Math.min(best, value), Math.max(bound, low)) > wanted,
    })
  if (!plan) take(search([...columns.values()], 0.5).plan)
  if (!plan) return null
  const reach = () => value - relaxed.bound + ROUNDING * Math.max(1, Math.abs(value))
  const small = within(relaxed, reach(), 'all', MOST_COLUMNS / 10)
  if (!small && gapOf(value, bound) > wanted)
    better(highs, problem, program, plan, {
      columns: [...columns.values(), ...(within(relaxed, reach(), 'built', MOST_COLUMNS) ?? [])],
      seconds: left,
      worth: (of) => reckon(of).value,
      take: (found) => take(found) && goOn('choosing'),
    })
  const proving =
    left() > 0 && gapOf(value, bound) > wanted ? (small ?? within(relaxed, reach(), 'all', MOST_COLUMNS)) : null
  if (proving) {
    const found = search(proving, 1)
    take(found.plan)
    bound = Math.max(bound, Math.min(found.bound, value))
  }
  return { plan, value, bound: Math.min(bound, value), gap: gapOf(value, bound), shortM: short, relaxed }
}

/** The whole numbers on either side, that nearest last. */
const aside = (built: number) =>
  [...new Set([Math.floor(built), Math.ceil(built)])].filter((n) => n !== Math.round(built))

function gapOf(value: number, bound: number): number {
  if (value === Number.POSITIVE_INFINITY || bound === Number.NEGATIVE_INFINITY) return Number.POSITIVE_INFINITY
  const gap = Math.max(0, value - bound) / Math.max(1e-9, Math.abs(value))
  return gap < ROUNDING ? 0 : gap
}

/** Dearer for a metre than anything that could be built or pulled for it. */
function shortPrice({ beds, years, insteadPerM, usePerM }: SitingProblem): number {
  const dearest = beds.flatMap(({ sites, lengthM, burden }) => [
    ...sites.flatMap(({ cost, weighed }) => cost.map((c, t) => (Math.abs(c) + Math.abs(weighed[t]!)) / lengthM)),
    ...burden.flat().map((one) => (one < Number.POSITIVE_INFINITY ? Math.abs(one) / lengthM : 0)),
  ])
  return 10 * (1 + years * (insteadPerM + usePerM) + dearest.reduce((a, b) => Math.max(a, b), 0))
}

/** The plans of every bed that a choice within the limit of the bound could hold; null where there are too many. */
function within({ pricing }: Relaxed, limit: number, which: 'all' | 'built', most: number): Column[] | null {
  const all: Column[] = []
  for (const bed of pricing) {
    const found = bed.within(limit + Math.min(0, bed.least), which, most - all.length)
    if (!found) return null
    all.push(...found)
  }
  return all
}
