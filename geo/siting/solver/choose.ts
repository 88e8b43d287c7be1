import type { Highs } from 'highs'
import type { Plan, SitingProblem } from '../problem.ts'
import { type Column, keyOf } from './column.ts'
import { addColumns, bareModel, type ProgramOptions } from './program.ts'

export interface ChooseOptions {
  readonly seconds: number
  /** Ends when what it has is within this part of the best of these columns. */
  readonly gap: number
  /** A choice known already, where its plans are among the columns. */
  readonly start: Plan
  /** Called now and then with the best value so far and the bound; false ends it. */
  readonly goOn: (best: number, bound: number) => boolean
}

/** The best choice of whole plans among some columns, by branch and bound; null where none was found in time. `bound`: what no choice of these comes below. */
export function choose(
  highs: Highs,
  problem: SitingProblem,
  program: ProgramOptions,
  columns: readonly Column[],
  { seconds, gap, start, goOn }: ChooseOptions,
): { readonly plan: Plan | null; readonly bound: number; readonly proved: boolean } {
  const model = bareModel(highs, problem, program)
  try {
    const first = 3 * problem.families.length * problem.years
    addColumns(model, problem, columns, program)
    model.changeColsIntegrality(
      { kind: 'range', from: first, to: first + columns.length - 1 },
      new Int32Array(columns.length).fill(highs.constants.variableType.integer),
    )
    model.options.set({ time_limit: Math.max(0.05, seconds), mip_rel_gap: gap, mip_abs_gap: 1e-7 })
    const whole = startIn(columns, start)
    if (whole)
      model.setSolution({
        indices: Int32Array.from(whole, (n) => first + n),
        values: new Float64Array(whole.length).fill(1),
      })
    model.run({
      [highs.constants.callbackType.mipInterrupt](event) {
        const { mip_primal_bound: best, mip_dual_bound: low } = event.data
        if (!goOn(best ?? Number.POSITIVE_INFINITY, low ?? Number.NEGATIVE_INFINITY)) event.interrupt()
        return undefined
      },
    })
    const { colValue } = model.getSolution()
    const plan = colValue.length === 0 ? null : columns.filter((_, n) => colValue[first + n]! > 0.5)
    return {
      plan: plan && isWhole(problem, plan) ? plan : null,
      bound: Number(model.info.get('mip_dual_bound')),
      proved: model.getModelStatus() === highs.constants.modelStatus.optimal,
    }
  } finally {
    model.dispose()
  }
}

/** Where the plans of a choice stand among the columns; null where one does not, or there is no choice yet. */
function startIn(columns: readonly Column[], start: Plan): number[] | null {
  const at = new Map(columns.map((column, n) => [keyOf(column), n]))
  const found = start.map((plan) => at.get(keyOf(plan)))
  if (start.length === 0 || found.includes(undefined)) return null
  return (found as number[]).sort((a, b) => a - b)
}

/** One plan a bed at most, and one for each that is fixed. */
function isWhole(problem: SitingProblem, plan: Plan): boolean {
  const beds = new Set(plan.map(({ bed }) => bed))
  return beds.size === plan.length && problem.beds.every(({ fixed }, n) => !fixed || beds.has(n))
}
