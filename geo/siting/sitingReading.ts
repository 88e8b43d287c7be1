import type { Metres } from '../plane/lonLat.ts'
import type { Recipe } from '../supports/recipe.ts'
import type { Side } from '../supports/sideLine.ts'
import type { BedTaken } from './bedTaken.ts'
import type { SitingAsked } from './planFile.ts'
import type { SitingProblem } from './problem.ts'
import type { Taken } from './runTakes.ts'
import type { LotStanding } from './standing.ts'
import type { Weight } from './weights.ts'

/** A place where a permanent support may stand, with what it would cost, shade and disturb. */
export interface SiteSeen {
  readonly side: Side
  readonly line: readonly [Metres, Metres]
  readonly lengthM: number
  readonly first: number
  readonly shade: number
  /** Angle to the wind, 0 along it and 90 square to it; null where no wind is told. */
  readonly windDeg: number | null
  readonly stands: boolean
  /** By year of the plan, what of a support that stands is to be renewed; nothing where it doesn't, or nobody told its age. */
  readonly renewals: readonly Taken[]
  readonly forbidden: boolean
  readonly preferred: boolean
}

/** A bed as the choice sees it. */
export interface BedSeen {
  readonly id: string
  readonly name: string
  readonly field: string
  readonly lengthM: number
  readonly sites: readonly SiteSeen[]
  /** Lots that stand in it when the plan begins, to be lifted before posts are driven. */
  readonly lots: readonly LotStanding[]
  /** Which of its rows are taken then, and how long. */
  readonly taken: BedTaken
  /** First year that a walnut's roots reach its middle line, and that a canopy does; null where neither does within the horizon. */
  readonly walnutFrom: number | null
  readonly canopyFrom: number | null
  /** What it gave of what was expected in the season before; null where there is too little to tell. */
  readonly index: number | null
}

/** All that the choice is made from. */
export interface SitingReading {
  readonly asked: SitingAsked
  readonly problem: SitingProblem
  /** In the order of the problem's beds, their sites all three sides. */
  readonly beds: readonly BedSeen[]
  readonly weights: Readonly<Record<Weight, number>>
  readonly notes: readonly string[]
  /** Families whose climbing crops are sensitive to juglone. */
  readonly sensitive: readonly string[]
  readonly recipes: { readonly system: Recipe; readonly instead: Recipe }
  /** Length of the farm's usual bed, in the middle of all: costs for each metre are those of a run as long. */
  readonly usualM: number
}
