import type { SitingProblem } from '../problem.ts'

/** What may follow what in a bed: by year the states that its waiting can have come to, and where each leads. */
export interface Waiting {
  /** States by year, from the first of the horizon to the one after its last. In the first there is one. */
  readonly counts: readonly number[]
  /** By year and state: the state a year on, when nothing is planted. */
  readonly rest: readonly Int32Array[]
  /** By year, state and family (state · families + family): the state a year on; below zero while it has to wait. */
  readonly after: readonly Int32Array[]
}

/** By bed; beds after the same history share theirs. */
export function waitingOf(problem: SitingProblem): Waiting[] {
  const known = new Map<string, Waiting>()
  return problem.beds.map(({ freeFrom }) => {
    const key = freeFrom.join()
    const waiting = known.get(key) ?? waitingAfter(problem, freeFrom)
    known.set(key, waiting)
    return waiting
  })
}

/** Goes through the years once; states in which the same families may come back in the same years are one. */
function waitingAfter(problem: SitingProblem, freeFrom: readonly number[]): Waiting {
  const { families, years } = problem
  const waitsAfter =
    problem.waits ?? families.map(({ returnYears }, f) => families.map((_, g) => (g === f ? returnYears : 0)))
  const [counts, rest, after]: [number[], Int32Array[], Int32Array[]] = [[], [], []]
  // Years that each family still waits; those left in the horizon stand for all that come after it.
  let states = [families.map((_, f) => Math.min(years, Math.max(0, freeFrom[f]!)))]
  for (let t = 0; t < years; t++) {
    const next = new Map<string, readonly [at: number, waits: number[]]>()
    const into = (waits: number[]) => {
      const key = waits.join()
      const found = next.get(key) ?? ([next.size, waits] as const)
      next.set(key, found)
      return found[0]
    }
    const left = years - t - 1
    const lower = (waits: readonly number[], after: readonly number[] | null) =>
      waits.map((wait, g) => Math.min(left, Math.max(0, wait - 1, (after?.[g] ?? 0) - 1)))
    counts.push(states.length)
    rest.push(Int32Array.from(states, (waits) => into(lower(waits, null))))
    after.push(
      Int32Array.from(
        states.flatMap((waits) => families.map((_, f) => (waits[f]! > 0 ? -1 : into(lower(waits, waitsAfter[f]!))))),
      ),
    )
    states = [...next.values()].map(([, waits]) => waits)
  }
  return { counts: [...counts, states.length], rest, after }
}
