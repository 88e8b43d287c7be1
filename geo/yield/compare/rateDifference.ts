import { seededRandom } from '../seededRandom.ts'
import { bcaInterval } from './bca.ts'
import { signFlipP } from './signFlip.ts'

/** What one group gave in one bed in one season: kg over row metres, or over plants. */
export interface Unit {
  /** Its bed and season. */
  readonly place: string
  readonly kg: number
  readonly size: number
}

/** How far two groups' rates lie apart. */
export interface RateDifference {
  /** Set against each other within beds, so that a bed's own ground does not count. */
  readonly paired: boolean
  /** Pairs, or where not paired units of the first and of the second group. */
  readonly counts: readonly number[]
  readonly difference: number
  /** 95 % interval; null where the redraws don't tell. */
  readonly low: number | null
  readonly high: number | null
  readonly p: number
}

/** With fewer pairs no pattern of signs could be rare enough: 2/2⁶ is the first below 0.05. */
export const FEWEST_PAIRS = 6
/** With fewer beds of each the bootstrap tells of those few beds, not of others. */
export const FEWEST_UNITS = 5

const DRAWS = 4000
const SHUFFLES = 4999

/**
 * Rate of group a less that of group b. Where 6 or more beds (each in a season) carried both: the mean of their
 * differences, its chance by flipping signs. Else where each group has 5 or more: all kg over all sizes, its chance by
 * dealing the units out anew. Interval: BCa bootstrap over pairs, or over units within groups. Null: too little to tell.
 */
export function rateDifference(a: readonly Unit[], b: readonly Unit[], seed: number): RateDifference | null {
  const random = seededRandom(seed)
  const ofB = new Map(b.map((unit) => [unit.place, unit]))
  const pairs = a.flatMap((unit) => {
    const other = ofB.get(unit.place)
    return other ? [unit.kg / unit.size - other.kg / other.size] : []
  })
  if (pairs.length >= FEWEST_PAIRS) return pairedDifference(pairs, random)
  if (a.length < FEWEST_UNITS || b.length < FEWEST_UNITS) return null
  const difference = rate(a) - rate(b)
  const redraws = Float64Array.from({ length: DRAWS }, () => rate(redrawn(a, random)) - rate(redrawn(b, random))).sort()
  const leftOut = [
    ...a.map((_, k) => a.length * (rate(a.filter((_, j) => j !== k)) - rate(a))),
    ...b.map((_, k) => b.length * (rate(b) - rate(b.filter((_, j) => j !== k)))),
  ]
  const interval = bcaInterval(difference, redraws, leftOut)
  const p = shuffledP(a, b, Math.abs(difference) * (1 - 1e-12), random)
  return {
    paired: false,
    counts: [a.length, b.length],
    difference,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    p,
  }
}

function pairedDifference(pairs: readonly number[], random: () => number): RateDifference {
  const difference = mean(pairs)
  const redraws = Float64Array.from({ length: DRAWS }, () => mean(redrawn(pairs, random))).sort()
  const interval = bcaInterval(
    difference,
    redraws,
    pairs.map((_, k) => mean(pairs.filter((_, j) => j !== k))),
  )
  const p = signFlipP(pairs, random)
  return {
    paired: true,
    counts: [pairs.length],
    difference,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    p,
  }
}

export function rate(units: readonly Unit[]): number {
  let kg = 0
  let size = 0
  for (const unit of units) {
    kg += unit.kg
    size += unit.size
  }
  return kg / size
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

function redrawn<T>(list: readonly T[], random: () => number): T[] {
  return list.map(() => list[Math.floor(random() * list.length)]!)
}

function shuffledP(a: readonly Unit[], b: readonly Unit[], found: number, random: () => number): number {
  const all = [...a, ...b]
  let asFar = 1
  for (let shuffle = 0; shuffle < SHUFFLES; shuffle += 1) {
    for (let k = all.length - 1; k > 0; k -= 1) {
      const other = Math.floor(random() * (k + 1))
      ;[all[k], all[other]] = [all[other]!, all[k]!]
    }
    if (Math.abs(rate(all.slice(0, a.length)) - rate(all.slice(a.length))) >= found) asFar += 1
  }
  return asFar / (SHUFFLES + 1)
}
