import type { Highs, Model } from 'highs'
import type { SitingProblem } from '../problem.ts'
import type { Column } from './column.ts'
import type { IsCounted, Prices } from './price.ts'

/** How many built sites of a set a plan must have. */
export interface Counted {
  readonly is: IsCounted
  readonly least: number
  readonly most: number
}

/**
 * The program over plans of beds: each bed follows at most one; metres used along permanent supports and along those of
 * one season are carried by the plans; together with metres that are short they make up what is wanted.
 */
export interface ProgramOptions {
  readonly counted: Counted | null
  /** Money for a metre that is short: more than anything else costs. */
  readonly shortPerM: number
  readonly roundings: readonly Rounding[]
}

/**
 * A limit that whole plans keep and parts of plans need not: metres wanted of a family come in lengths of beds, so that
 * either some of the last bed's length is left over, or some metres stay for supports of one season. The mixed-integer
 * rounding of Σ length·plan + (need − used) ≥ need, divided by a length (Nemhauser & Wolsey 1990).
 */
export interface Rounding {
  readonly family: number
  /** By bed: what a plan counts in which the family climbs along its permanent support. */
  readonly counts: readonly number[]
  readonly perUsedM: number
  readonly least: number
}

/** Roundings by the lengths of the longest beds, which are those that pay first. */
export function roundingsOf({ beds, families }: SitingProblem): Rounding[] {
  const lengths = beds
    .filter(({ sites }) => sites.length > 0)
    .map(({ lengthM }) => lengthM)
    .sort((a, b) => b - a)
  const divisors = new Set(
    [0, 0.05, 0.1, 0.2, 0.35, 0.5].flatMap((part) => lengths[Math.floor(part * lengths.length)] ?? []),
  )
  return families.flatMap(({ needM }, family) =>
    [...divisors].flatMap((byM): Rounding[] => {
      const over = needM / byM - Math.floor(needM / byM)
      if (over < 0.02 || over > 0.98) return []
      const counts = beds.map(({ lengthM }) => {
        const whole = Math.floor(lengthM / byM)
        return whole + Math.min(1, (lengthM / byM - whole) / over)
      })
      return [{ family, counts, perUsedM: 1 / (byM * over), least: Math.ceil(needM / byM) - needM / (byM * over) }]
    }),
  )
}

/** The rows of the program, in their order. */
export function rowsOf({ beds, families, years }: SitingProblem, roundings: readonly Rounding[]) {
  const cells = families.length * years
  const cell = (f: number, t: number) => f * years + t
  const first = beds.length
  return {
    bed: (n: number) => n,
    permanent: (f: number, t: number) => first + cell(f, t),
    instead: (f: number, t: number) => first + cells + cell(f, t),
    need: (f: number, t: number) => first + 2 * cells + cell(f, t),
    budget: first + 3 * cells,
    counted: first + 3 * cells + 1,
    rounding: (n: number, t: number) => first + 3 * cells + 2 + n * years + t,
    count: first + 3 * cells + 2 + roundings.length * years,
  }
}

/** Entries of a plan's column. */
export function entriesOf(
  problem: SitingProblem,
  column: Column,
  { counted, roundings }: Pick<ProgramOptions, 'counted' | 'roundings'>,
): [number, number][] {
  const rows = rowsOf(problem, roundings)
  const { lengthM, rows: sideBySide } = problem.beds[column.bed]!
  const entries: [number, number][] = [[rows.bed(column.bed), 1]]
  column.climbs.forEach((f, t) => {
    if (f === null) return
    const along = t >= column.built ? 1 : 0
    if (along === 1) entries.push([rows.permanent(f, t), lengthM])
    if (sideBySide > along) entries.push([rows.instead(f, t), (sideBySide - along) * lengthM])
    if (along === 1)
      roundings.forEach(({ family, counts }, n) => {
        if (family === f) entries.push([rows.rounding(n, t), counts[column.bed]!])
      })
  })
  if (column.first !== 0) entries.push([rows.budget, column.first])
  if (column.site !== null && counted?.is(column.bed, column.site)) entries.push([rows.counted, 1])
  return entries
}

/** The bare program: rows, and the columns for metres used along permanent supports, pulled ones, and short. */
export function bareModel(
  highs: Highs,
  problem: SitingProblem,
  { counted, shortPerM, roundings }: ProgramOptions,
): Model {
  const { beds, families, years, budget, usePerM, insteadPerM } = problem
  const rows = rowsOf(problem, roundings)
  const lower = new Float64Array(rows.count)
  const upper = new Float64Array(rows.count).fill(highs.infinity)
  beds.forEach(({ fixed }, n) => {
    lower[n] = fixed ? 1 : 0
    upper[n] = 1
  })
  lower[rows.budget] = -highs.infinity
  upper[rows.budget] = budget ?? highs.infinity
  lower[rows.counted] = counted?.least ?? -highs.infinity
  upper[rows.counted] = counted?.most ?? highs.infinity
  roundings.forEach(({ least }, n) => {
    for (let t = 0; t < years; t++) {
      lower[rows.rounding(n, t)] = least
      upper[rows.rounding(n, t)] = highs.infinity
    }
  })
  const [cost, limit, entries]: [number[], number[], [number, number][][]] = [[], [], []]
  families.forEach(({ needM }, f) => {
    for (let t = 0; t < years; t++) {
      lower[rows.need(f, t)] = needM
      upper[rows.need(f, t)] = needM
      cost.push(usePerM, insteadPerM, shortPerM)
      limit.push(needM, needM, needM)
      entries.push(
        [
          [rows.permanent(f, t), -1],
          [rows.need(f, t), 1],
          ...roundings.flatMap(({ family, perUsedM }, n): [number, number][] =>
            family === f ? [[rows.rounding(n, t), -perUsedM]] : [],
          ),
        ],
        [
          [rows.instead(f, t), -1],
          [rows.need(f, t), 1],
        ],
        [[rows.need(f, t), 1]],
      )
    }
  })
  const model = highs.createModel({
    numCols: cost.length,
    numRows: rows.count,
    colCost: Float64Array.from(cost),
    colLower: new Float64Array(cost.length),
    colUpper: Float64Array.from(limit),
    rowLower: lower,
    rowUpper: upper,
    matrix: { format: 'csc', numRows: rows.count, numCols: cost.length, ...packed(entries) },
  })
  model.options.set({ output_flag: false })
  return model
}

function packed(entries: readonly (readonly [number, number])[][]) {
  const starts = new Int32Array(entries.length + 1)
  entries.forEach((list, n) => {
    starts[n + 1] = starts[n]! + list.length
  })
  const flat = entries.flat()
  return {
    starts,
    indices: Int32Array.from(flat, ([row]) => row),
    values: Float64Array.from(flat, ([, value]) => value),
  }
}

/** Adds plans to a program, in parts from nothing to the whole. */
export function addColumns(
  model: Model,
  problem: SitingProblem,
  columns: readonly Column[],
  options: Pick<ProgramOptions, 'counted' | 'roundings'>,
): void {
  if (columns.length === 0) return
  model.addCols({
    cost: Float64Array.from(columns, ({ cost }) => cost),
    lower: new Float64Array(columns.length),
    upper: new Float64Array(columns.length).fill(1),
    matrix: {
      format: 'csc',
      numRows: rowsOf(problem, options.roundings).count,
      numCols: columns.length,
      ...packed(columns.map((column) => entriesOf(problem, column, options))),
    },
  })
}

/** The prices that the rows' duals tell. */
export function pricesFrom(problem: SitingProblem, roundings: readonly Rounding[], duals: Float64Array): Prices {
  const { families, years, beds } = problem
  const rows = rowsOf(problem, roundings)
  const by = (worth: (bed: number, f: number, t: number) => number) =>
    beds.map((_, bed) => families.map((_, f) => Array.from({ length: years }, (_, t) => worth(bed, f, t))))
  return {
    permanent: by((bed, f, t) =>
      roundings.reduce(
        (sum, { family, counts }, n) => (family === f ? sum + counts[bed]! * duals[rows.rounding(n, t)]! : sum),
        beds[bed]!.lengthM * duals[rows.permanent(f, t)]!,
      ),
    ),
    instead: by((bed, f, t) => beds[bed]!.lengthM * duals[rows.instead(f, t)]!),
    bed: beds.map((_, n) => duals[n]!),
    budget: duals[rows.budget]!,
    counted: duals[rows.counted]!,
  }
}
