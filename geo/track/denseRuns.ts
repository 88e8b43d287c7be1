import { type PlaneFix, UNTOLD_M } from './fix.ts'
import { median } from './median.ts'

/** After a silence longer than this the next position may be anywhere: a walker goes some 7 m meanwhile. */
const GAP_MS = 5000
/** The usual step from one position to the next of a person who walks, with a position told every second or two, is no longer than this. */
const WALKED_M = 3

/** Positions one after another that lie so near to each other that each tells where the next ought to be. */
export interface DenseRun {
  /** Their places in the list given. */
  readonly at: readonly number[]
  /** The median of the steps from one to the next. */
  readonly stepM: number
}

/**
 * The dense runs among some positions: without a silence of more than 5 s where times are told, their median step no
 * longer than the accuracy told, or than a walker's. Positions that tell neither accuracy nor time were set down by hand
 * or by a program, and are in no run.
 */
export function denseRuns(fixes: readonly PlaneFix[], among: readonly number[]): readonly DenseRun[] {
  const runs: number[][] = []
  for (const n of among) {
    const last = runs.at(-1)
    if (last && !isSilence(fixes[last.at(-1)!]!, fixes[n]!)) last.push(n)
    else runs.push([n])
  }
  return runs.flatMap((at): DenseRun[] => {
    const run = at.map((n) => fixes[n]!)
    if (run.length < 2 || run.every(tellsNothing)) return []
    const told = run.flatMap(({ accuracyM }) => accuracyM ?? [])
    const stepM = usualStepM(run)
    return stepM <= Math.max(told.length > 0 ? median(told) : UNTOLD_M, WALKED_M) ? [{ at, stepM }] : []
  })
}

/** A drawing of more positions than this, and with steps as short as a walker's, is a walk whose times were taken out of its file. */
const MOST_DRAWN = 100

/** Positions that were set down, not measured: a route, or an outline that a program wrote. Each of them is meant. */
export function isDrawn(fixes: readonly PlaneFix[]): boolean {
  return fixes.every(tellsNothing) && (fixes.length <= MOST_DRAWN || usualStepM(fixes) > WALKED_M)
}

const tellsNothing = ({ accuracyM, atMs }: PlaneFix) => accuracyM === null && atMs === null

const isSilence = (a: PlaneFix, b: PlaneFix) => a.atMs !== null && b.atMs !== null && Math.abs(b.atMs - a.atMs) > GAP_MS

const usualStepM = (fixes: readonly PlaneFix[]) =>
  median(fixes.slice(1).map(({ at }, n) => Math.hypot(at[0] - fixes[n]!.at[0], at[1] - fixes[n]!.at[1])))
