import { seededRandom } from './seededRandom.ts'

/** What one planting gave along its row, and the group it is compared under (a support system, a variety). */
export type ComparedPlanting = { readonly group: string; readonly kg: number; readonly rowM: number }

export type GroupYield = {
  readonly group: string
  readonly plantings: number
  readonly rowM: number
  /** All that the group gave over all its row metres. */
  readonly kgPerRowM: number
  /** Bounds of the 95 % interval; null for a single planting, which can't tell how plantings differ. */
  readonly low: number | null
  readonly high: number | null
}

const DRAWS = 2000

/**
 * kg per row metre of each group, with the 2.5th and 97.5th percentile over 2,000 redraws of its plantings
 * (percentile bootstrap: Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 13). Groups come in order of
 * their names and draw from the seed each for itself, so one group's figures don't hang on another's.
 */
export function compareGroups(plantings: readonly ComparedPlanting[], seed: number): GroupYield[] {
  const groups = new Map<string, ComparedPlanting[]>()
  for (const planting of plantings) {
    if (!(planting.rowM > 0)) throw new Error(`a planting with ${planting.rowM} row metres can't be compared`)
    const list = groups.get(planting.group)
    if (list === undefined) groups.set(planting.group, [planting])
    else list.push(planting)
  }
  return [...groups.keys()].sort().map((group) => {
    const members = groups.get(group)!
    const rowM = members.reduce((sum, p) => sum + p.rowM, 0)
    const kg = members.reduce((sum, p) => sum + p.kg, 0)
    const redraws = members.length > 1 ? redrawn(members, seed) : null
    return {
      group,
      plantings: members.length,
      rowM,
      kgPerRowM: kg / rowM,
      low: redraws && percentile(redraws, 0.025),
      high: redraws && percentile(redraws, 0.975),
    }
  })
}

/** kg per row metre of as many redraws as asked, least first. */
function redrawn(members: readonly ComparedPlanting[], seed: number): Float64Array {
  const random = seededRandom(seed)
  const rates = new Float64Array(DRAWS)
  for (let draw = 0; draw < DRAWS; draw += 1) {
    let kg = 0
    let rowM = 0
    for (let k = 0; k < members.length; k += 1) {
      const one = members[Math.floor(random() * members.length)]!
      kg += one.kg
      rowM += one.rowM
    }
    rates[draw] = kg / rowM
  }
  return rates.sort()
}

/** Percentile of sorted values, between neighbours in proportion (definition 7 of Hyndman & Fan 1996, R's own). */
export function percentile(sorted: ArrayLike<number>, share: number): number {
  const at = share * (sorted.length - 1)
  const below = Math.floor(at)
  const low = sorted[below]!
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!
  return low + (high - low) * (at - below)
}
