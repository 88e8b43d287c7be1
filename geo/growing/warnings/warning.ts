import type { Crop } from '../../model/crops.ts'
import type { Span } from '../../plane/within.ts'

/** Another planting that a warning speaks of. */
export interface Other {
  readonly planting: string
  readonly crop: string
  readonly variety: string
}

interface Of<K extends string> {
  readonly kind: K
  readonly planting: string
  readonly bed: string
  /** Where the rule comes from, in words. */
  readonly source: string
}

/** Its family stood here too few seasons ago. `shared` is in metres along its own row. */
export interface FamilyBack extends Of<'family back'> {
  readonly other: Other
  readonly family: string
  readonly shared: Span
  readonly stoodInSeason: number
  readonly season: number
  /** Seasons that should lie between, counted from one to the other. */
  readonly returnYears: number
}

/** A crop listed as sensitive stands, or will stand before it is cleared, where a tree's roots may reach. */
export interface NearWalnut extends Of<'walnut'> {
  readonly tree: string
  readonly treeName: string
  readonly trunkM: number
  /** The reach on the last day looked at. */
  readonly reachM: number
  /** The first day that it is within reach. */
  readonly from: string
  /** The last day looked at: the day before it is cleared, or as long as the crop usually stands. */
  readonly until: string
  readonly assumed: boolean
  readonly sure: Crop['juglone_sure']
}

/** More plants than the stretch holds at the closest usual spacing. */
export interface TooDense extends Of<'dense'> {
  readonly plants: number
  readonly most: number
  readonly lengthM: number
  readonly usualM: number
}

/** A climbing crop with no support along part of it, on a day of its standing. */
export interface Unheld extends Of<'unheld'> {
  readonly on: string
  readonly lengthM: number
  readonly unheldM: number
}

/**
 * Raw manure too short a time before a harvest: a pick that was too early (`picked`), the first to be expected
 * (`expected`), or, where it may have been picked before the dressing already, those still to come (`going on`).
 */
export interface ManureInterval extends Of<'manure'> {
  readonly dressing: string
  readonly material: string
  readonly dressedOn: string
  readonly days: number
  readonly notBefore: string
  readonly harvest: { readonly on: string; readonly how: 'picked' | 'expected' | 'going on' } | null
  /** Null where the crop does not say; the longer interval is taken then. */
  readonly touchesSoil: boolean | null
}

/** Another planting stands on the same ground at the same time; `until` null where neither is to be cleared. */
export interface Claimed extends Of<'claimed'> {
  readonly other: Other
  readonly shared: Span
  readonly from: string
  readonly until: string | null
  /** The other, or this one, was told by its bed alone and takes the whole width. */
  readonly wholeWidth: boolean
}

/** What a grower may want to look at again. A warning never stands in the way. */
export type Warning = FamilyBack | NearWalnut | TooDense | Unheld | ManureInterval | Claimed
export type WarningKind = Warning['kind']
