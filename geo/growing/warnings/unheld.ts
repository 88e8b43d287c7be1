import { HELD_WITHIN_M } from '../../measure/held.ts'
import { spansLength, spansWithin } from '../../plane/within.ts'
import { addDays } from '../days.ts'
import type { Ground } from '../ground.ts'
import type { Stand } from '../stand.ts'
import type { Unheld } from './warning.ts'

/** Less than a hand's breadth at a run's end is not told. */
export const TOLD_FROM_M = 0.1

/**
 * How much of a climbing planting runs along no support on the day looked at, or, if it does not stand then, on the day of
 * its standing that is nearest. Held as `climbingStretches` has it: within 0.6 m of a support that stands that day.
 */
export function unheld(
  { planting, crop, bed, line, span }: Stand,
  supports: Ground['supports'],
  on: string,
): Unheld | null {
  if (!crop.climbs) return null
  const last = planting.cleared === null ? null : addDays(planting.cleared, -1)
  const day = on < planting.set_out ? planting.set_out : last !== null && on > last ? last : on
  const standing = supports.filter(
    ({ put_up, taken_down }) => (put_up === null || put_up <= day) && (taken_down === null || taken_down > day),
  )
  const lengthM = span[1] - span[0]
  const heldM = spansLength(
    spansWithin(
      line,
      standing.map((support) => support.line),
      HELD_WITHIN_M,
    ),
  )
  const unheldM = lengthM - Math.min(heldM, lengthM)
  if (unheldM <= TOLD_FROM_M) return null
  const source = crop.climbs_source ?? 'it climbs, as the crop says; no source is kept'
  return { kind: 'unheld', planting: planting.id, bed, source, on: day, lengthM, unheldM }
}
