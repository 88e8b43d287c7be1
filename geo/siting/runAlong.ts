import type { Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'

/** A permanent support that runs along so much of a place for one stands there already. */
const STANDS_SHARE = 0.8
const STANDS_WITHIN_M = 0.4

/** The first of some runs that stands along a line already, if any does; all in the farm's plane. */
export function runAlong<R extends { readonly line: readonly Metres[] }>(
  place: readonly [Metres, Metres],
  runs: readonly R[],
): R | undefined {
  const lengthM = Math.hypot(place[1][0] - place[0][0], place[1][1] - place[0][1])
  return runs.find(({ line }) => spansLength(spansWithin(place, [line], STANDS_WITHIN_M)) >= STANDS_SHARE * lengthM)
}
