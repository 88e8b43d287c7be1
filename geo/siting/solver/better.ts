import type { Highs } from 'highs'
import { seededRandom } from '../../yield/seededRandom.ts'
import type { Plan, SitingProblem } from '../problem.ts'
import { choose } from './choose.ts'
import { type Column, columnOf, keyOf } from './column.ts'
import type { ProgramOptions } from './program.ts'

export interface BetterOptions {
  readonly columns: readonly Column[]
  readonly seconds: () => number
  readonly worth: (plan: Plan) => number
  /** Takes what is better; false ends the search. */
  readonly take: (plan: Plan) => boolean
}

const STEP_SECONDS = 0.6
/** Ends after so many tries in a row that bettered nothing. */
const MOST_IDLE = 25

/**
 * Betters a choice by freeing some beds, built ones and others, and choosing for these anew, as large a part as is chosen
 * in a moment (large neighbourhood search, Shaw 1998). The same seed gives the same search, but for how far time reaches.
 */
export function better(
  highs: Highs,
  problem: SitingProblem,
  program: ProgramOptions,
  from: Plan,
  { columns, seconds, worth, take }: BetterOptions,
): void {
  const random = seededRandom(1)
  const pick = (list: readonly number[], count: number) => {
    const left = [...list]
    return Array.from(
      { length: Math.min(count, left.length) },
      () => left.splice(Math.floor(random() * left.length), 1)[0]!,
    )
  }
  const beds = problem.beds.map((_, n) => n)
  let plan = from
  let free = 4
  for (let idle = 0; idle < MOST_IDLE && seconds() > 0; idle++) {
    const built = plan.flatMap(({ bed, site }) => (site === null ? [] : [bed]))
    const freed = new Set([...pick(built, free), ...pick(beds, Math.ceil(1.5 * free))])
    const held = plan.filter(({ bed }) => !freed.has(bed))
    const keys = new Set<string>()
    const open = [...plan.map((one) => columnOf(problem, one)), ...columns.filter(({ bed }) => freed.has(bed))].filter(
      (column) => !keys.has(keyOf(column)) && keys.add(keyOf(column)),
    )
    const holding = {
      ...problem,
      beds: problem.beds.map((bed, n) => (freed.has(n) ? bed : { ...bed, fixed: held.some((one) => one.bed === n) })),
    }
    const { plan: found, proved } = choose(highs, holding, program, open, {
      seconds: Math.min(STEP_SECONDS, seconds()),
      gap: 1e-4,
      start: plan,
      goOn: () => seconds() > 0,
    })
    free = Math.max(2, free + (proved ? 1 : -1))
    if (!found || !(worth(found) < worth(plan) - 1e-7)) continue
    plan = found
    idle = 0
    if (!take(plan)) return
  }
}
