import type { BedYield } from '../bedYields.ts'
import type { Standing } from '../hotAndCold.ts'

/** What one bed gave in one season. */
export interface BedOfSeason {
  readonly season: number
  readonly kg: number
  readonly kgPerM2: number
  readonly index: number | null
  /** Its place among the beds with an index in that season, 1 the highest; equal indexes share the better place. */
  readonly rank: number | null
  /** How many beds have an index in that season. */
  readonly of: number
  /** Index less that of the last season before in which the bed had one. */
  readonly change: number | null
  readonly standing: Standing | null
}

export interface BedSeasons {
  readonly id: string
  readonly seasons: readonly BedOfSeason[]
}

/** Each bed season by season: `figures[s]` are the beds of season s, in the same order in each. */
export function bedSeasons(
  figures: readonly { readonly season: number; readonly beds: readonly BedYield[] }[],
): BedSeasons[] {
  const ranks = figures.map(({ beds }) => ranksOf(beds.map(({ index }) => index)))
  return (figures[0]?.beds ?? []).map(({ id }, b) => {
    let before: number | null = null
    const seasons = figures.map(({ season, beds }, s): BedOfSeason => {
      const { kg, kgPerM2, index, standing } = beds[b]!
      const change = index === null || before === null ? null : index - before
      before = index ?? before
      return { season, kg, kgPerM2, index, rank: ranks[s]!.of[b]!, of: ranks[s]!.count, change, standing }
    })
    return { id, seasons }
  })
}

function ranksOf(values: readonly (number | null)[]): { of: (number | null)[]; count: number } {
  const sorted = values.filter((value) => value !== null).sort((a, b) => b - a)
  return { of: values.map((value) => (value === null ? null : sorted.indexOf(value) + 1)), count: sorted.length }
}
