import type { Metres } from '../plane/lonLat.ts'

/** One position as a device told it. */
export interface Fix {
  readonly lon: number
  readonly lat: number
  /** Radius in metres within which the device holds the true place to lie 95 times in 100 (W3C Geolocation); null where it was not told. */
  readonly accuracyM: number | null
  /** When, in milliseconds of the device's clock; null where a file does not say. */
  readonly atMs: number | null
}

/** A position in the plane. */
export interface PlaneFix {
  readonly at: Metres
  readonly accuracyM: number | null
  readonly atMs: number | null
}

/** What is done with a walk, in order: a position told; standing still at a corner begun and ended; the last corner taken back. */
export type WalkEvent =
  | ({ readonly does: 'fix' } & Fix)
  | { readonly does: 'hold' }
  | { readonly does: 'go on' }
  | { readonly does: 'take back' }

/**
 * The radius that holds 95 in 100 of a round normal scatter, in standard deviations of one axis: √(−2 ln 0.05).
 */
export const R95 = Math.sqrt(-2 * Math.log(0.05))

/** What is assumed of a measured position that does not say how sure it is: an ordinary receiver under open sky. */
export const UNTOLD_M = 5

/** Worse than this a position is of no use for a boundary, and is left out. */
export const USELESS_M = 30
