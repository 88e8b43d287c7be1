import type { Metres } from '../plane/lonLat.ts'
import { spansLength, spansWithin } from '../plane/within.ts'

/** A permanent support that runs along so much of a place for one stands there already. */
const STANDS_SHARE = 0.8
const STANDS_WITHIN_M = 0.4

/** Whether one of some runs stands along a line already; all in the farm's plane. */
export function standsAlong(line: readonly [Metres, Metres], runs: readonly (readonly Metres[])[]): boolean {
  const lengthM = Math.hypot(line[1][0] - line[0][0], line[1][1] - line[0][1])
  return runs.some((run) => spansLength(spansWithin(line, [run], STANDS_WITHIN_M)) >= STANDS_SHARE * lengthM)
}
