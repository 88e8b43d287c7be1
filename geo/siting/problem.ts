import type { Side } from '../supports/sideLine.ts'

/** What climbs, how much of it is wanted each year, and after how many years it may come back to the same bed. */
export interface Family {
  readonly name: string
  readonly needM: number
  readonly returnYears: number
}

/** A place along a bed where a permanent support may stand. Money over the whole horizon, by the year it is built in. */
export interface Site {
  readonly side: Side
  /** First year (0 for the first of the horizon) in which it can be built; a lot may have to be lifted before. */
  readonly earliest: number
  /** Parts and putting up, renewals within the horizon among them, by the year built; of what stands the renewals alone. */
  readonly cost: readonly number[]
  /** Of that, what is spent when it is built: counted against the budget. */
  readonly first: number
  /** What weights lay on it, or (below zero) take off, by the year built. */
  readonly weighed: readonly number[]
}

/** A bed in which one family can climb each year, along a permanent support, along ones that are pulled in autumn, or both. */
export interface SitingBed {
  readonly id: string
  /** Of one row. */
  readonly lengthM: number
  /** Climbing rows that it carries side by side; one of them along the permanent support, where it has one. */
  readonly rows: number
  /** By family: the first year in which it may stand here again, after what stood here before. */
  readonly freeFrom: readonly number[]
  /** By family and year: what weights lay on its climbing here then; infinite where it may not. */
  readonly burden: readonly (readonly number[])[]
  readonly sites: readonly Site[]
  /** One of the sites must be built. */
  readonly fixed: boolean
}

/**
 * Where permanent supports should stand. In each year and family, metres wanted are met by rows along permanent
 * supports and by rows along supports of one season; each bed carries one climbing family a year, and a family comes back
 * to a bed only after its years. Costs are charged per metre that is used.
 */
export interface SitingProblem {
  readonly years: number
  readonly families: readonly Family[]
  readonly beds: readonly SitingBed[]
  /**
   * By what stood and what is to follow (their numbers): the years before it may; 0 where it need not wait. Not told where
   * each waits for itself alone.
   */
  readonly waits?: readonly (readonly number[])[]
  /** Money for a metre and season of a support that is pulled in autumn. */
  readonly insteadPerM: number
  /** The same for a permanent one in use. */
  readonly usePerM: number
  /** Money to build with over the whole horizon; null for as much as it takes. */
  readonly budget: number | null
}

/** What becomes of a bed: by year the family (its number) that climbs there, or null. */
export interface BedPlan {
  readonly bed: number
  /** The site built, by its number; null where none is. */
  readonly site: number | null
  /** Year it is built in; the horizon's length where none is. */
  readonly built: number
  readonly climbs: readonly (number | null)[]
}

/** Plans of some beds; nothing climbs in the others. */
export type Plan = readonly BedPlan[]
