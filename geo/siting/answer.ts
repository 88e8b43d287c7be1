import type { Side } from '../supports/sideLine.ts'
import type { LotToLift } from './lotsToLift.ts'
import type { YearBill } from './planBill.ts'

/** A row that gets a permanent support. */
export interface SitedRow {
  readonly bed: string
  readonly side: Side
  readonly length_m: number
  /** The year it is built in; of one that stands already, the first of the plan. */
  readonly built: number
  /** A permanent support stands there already. */
  readonly stands: boolean
  /** Family by year, of the years in which it is climbed. */
  readonly years: Readonly<Record<string, string>>
}

export interface SitingCost {
  /** Money over the horizon: building, seasons, and what is still pulled every autumn. */
  readonly total: number
  readonly by_year: Readonly<Record<string, number>>
  /** The same need met by pulling every autumn alone. */
  readonly instead_total: number
}

/** Why a place for a support was taken or left. */
export interface Reason {
  readonly bed: string
  readonly side: Side
  readonly why: string
}

/** One plan of those that are offered. */
export interface SitingPlan {
  readonly rows: readonly SitedRow[]
  /** Beds in which a support of one season is put up, family by year. */
  readonly one_season: readonly { readonly bed: string; readonly years: Readonly<Record<string, string>> }[]
  /** Stock that has to be lifted first, bed by bed. */
  readonly lift: readonly LotToLift[]
  readonly cost: SitingCost
  /** What weights lay on it beside the money. */
  readonly weighed: number
  /** Metres by year and family: along permanent supports, and pulled in autumn. */
  readonly metres: readonly {
    readonly year: number
    readonly family: string
    readonly permanent_m: number
    readonly one_season_m: number
  }[]
  /** First year by whose end it has cost no more than pulling every autumn, and stays so. */
  readonly payback_year: number | null
  /** By year, what is taken of each part, and the labour. */
  readonly materials: readonly YearBill[]
}

/** The answer: data.md's, with what else was found out beside it. */
export interface SitingAnswer extends SitingPlan {
  readonly status: 'optimal' | 'feasible' | 'infeasible'
  /** How far from the best it may be, as a part of its cost with its weights. */
  readonly gap: number
  readonly reasons: readonly Reason[]
  /** What stands in the way where the need can't be met, and by how much it would have to give. */
  readonly binding: readonly { readonly limit: string; readonly by: number }[]
  /** Really different plans, each with what it does otherwise. */
  readonly others: readonly (SitingPlan & {
    readonly how: string
    readonly gap: number
    /** As told of the best, among the plans that are as this one is to be. */
    readonly reasons: readonly Reason[]
  })[]
  /** What was assumed or left out. */
  readonly notes: readonly string[]
}
