import type { Highs } from 'highs'
import type { SitingAnswer } from './answer.ts'
import { bindingOf } from './binding.ts'
import type { Plan } from './problem.ts'
import { reasonsOf } from './reasons.ts'
import type { SitingReading } from './sitingReading.ts'
import type { Counted } from './solver/program.ts'
import { type Progress, SHORT_M, type Solved, type SolveOptions, solveSiting } from './solver/solve.ts'
import { toPlan } from './toPlan.ts'

export interface ChoiceOptions extends Omit<SolveOptions, 'counted' | 'tell'> {
  /** How many really different plans are looked for beside the best. */
  readonly others: number
  /** Called now and then with the best plan so far; false ends the search with what there is. */
  readonly tell?: (progress: Progress, plan: Plan | null) => boolean
}

/** A plan proved within this of the best is called optimal. */
const OPTIMAL = 1e-6

/** Chooses where permanent supports should stand, and tells why, what else would do, or what stands in the way. */
export function chooseSites(highs: Highs, reading: SitingReading, options: ChoiceOptions): SitingAnswer {
  const { problem, asked, notes } = reading
  const { others: _, tell, ...quiet } = options
  const solving: SolveOptions = { ...quiet, ...(tell && { tell }) }
  // What is solved after the choice itself is told of, but its plans are not the choice.
  const comparing: SolveOptions = {
    ...quiet,
    ...(tell && { tell: () => tell({ doing: 'comparing', best: null, bound: null }, null) }),
  }
  const solved = solveSiting(highs, problem, solving)
  if (!solved || solved.shortM > SHORT_M) {
    const nothing = toPlan(reading, [])
    return {
      ...nothing,
      status: 'infeasible',
      gap: 0,
      metres: [],
      materials: [],
      reasons: [],
      binding: bindingOf(highs, problem, asked.from, solved, comparing),
      others: [],
      notes,
    }
  }
  return {
    ...sitingAnswer(reading, solved.plan, solved.gap),
    reasons: reasonsOf(reading, solved),
    others: options.others === 0 ? [] : othersOf(highs, reading, solved, comparing, options.others),
  }
}

/** A choice that meets the need in the farm's words, whether it was ended before its time or not; without reasons, which ask the program. */
export function sitingAnswer(reading: SitingReading, plan: Plan, gap: number): SitingAnswer {
  return {
    ...toPlan(reading, plan),
    status: gap <= OPTIMAL ? 'optimal' : 'feasible',
    gap,
    reasons: [],
    binding: [],
    others: [],
    notes: reading.notes,
  }
}

/** Plans with at least a third of the rows elsewhere, and with half as many rows; where none is best, the best with one. */
function othersOf(
  highs: Highs,
  reading: SitingReading,
  best: Solved,
  solving: SolveOptions,
  most: number,
): SitingAnswer['others'] {
  const { problem } = reading
  const built = builtIn(best.plan)
  const some: { how: string; counted: Counted }[] =
    built.size === 0
      ? [{ how: 'at least one permanent row', counted: { is: () => true, least: 1, most: problem.beds.length } }]
      : [
          {
            how: 'a third of the rows in other beds',
            counted: {
              is: (bed) => built.has(bed),
              least: 0,
              most: built.size - Math.max(1, Math.ceil(built.size / 3)),
            },
          },
          {
            how: 'half as many permanent rows',
            counted: { is: () => true, least: 0, most: Math.floor(built.size / 2) },
          },
        ]
  return some.slice(0, most).flatMap(({ how, counted }) => {
    const solved = solveSiting(highs, problem, { ...solving, counted })
    if (!solved || solved.shortM > SHORT_M) return []
    return [{ ...toPlan(reading, solved.plan), how, gap: solved.gap, reasons: reasonsOf(reading, solved, counted.is) }]
  })
}

const builtIn = (plan: Plan) => new Set(plan.flatMap(({ bed, site }) => (site === null ? [] : [bed])))
