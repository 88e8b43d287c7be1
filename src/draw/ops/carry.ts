import { type LongAxis, longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import type { Corners } from '../shape.ts'
import { motion, type Place } from './moved.ts'

/** Corners that a motion meets within this are moved by it: a tenth of a millimetre. */
const RIGID_M = 1e-4

/** What begins or ends so near to an end of the bed keeps its distance from that end. */
const NEAR_END_M = 1

/**
 * Where what lies in a bed goes when its outline becomes another. A bed that was only moved and turned takes everything
 * with it as it lay. In one that was reshaped, what reaches to an end goes with that end, what lies between stays where
 * it is on the ground (moved with the end that moved less, and never out of the bed), and everything keeps its share of
 * the width; all by the bed's least rectangle.
 */
export function carry(before: Corners, after: Corners): Place {
  return rigid(before, after) ?? reshaped(before, after)
}

function rigid(before: Corners, after: Corners): Place | null {
  const [a, b] = [before[0], after[0]]
  if (before.length !== after.length || !a || !b) return null
  const far = before.reduce((best, p, i) => (distanceM(a, p) > distanceM(a, before[best]!) ? i : best), 0)
  const [p, q] = [before[far]!, after[far]!]
  const angle = (from: Metres, to: Metres) => Math.atan2(to[0] - from[0], to[1] - from[1])
  const turnDeg = ((angle(b, q) - angle(a, p)) * 180) / Math.PI
  const shift: Metres = [b[0] - a[0], b[1] - a[1]]
  const plain = motion({ about: a, turnDeg: 0, by: shift })
  const fits = (to: Place) => before.every((at, i) => distanceM(to(at), after[i]!) <= RIGID_M)
  if (fits(plain)) return plain
  const turned = motion({ about: a, turnDeg, by: shift })
  return fits(turned) ? turned : null
}

function reshaped(before: Corners, after: Corners): Place {
  const [from, to] = [longAxis(before), longAxis(after)]
  if (!from || !to) return (at) => at
  // The same way along both, so that nothing is turned end for end where the axis passes through north.
  const way = from.ux * to.ux + from.uy * to.uy >= 0 ? 1 : -1
  const along = ([x, y]: Metres) => way * (to.ux * x + to.uy * y)
  const start = way === 1 ? to.startM : -to.startM - to.lengthM
  const end = start + to.lengthM
  const [startShift, endShift] = [start - along(placeOn(from, 0)), end - along(placeOn(from, from.lengthM))]
  const both = Math.sign(startShift) === Math.sign(endShift) ? nearer(startShift, endShift) : 0
  const inset = Math.min(NEAR_END_M, to.lengthM / 2)
  return (at) => {
    const fromStart = from.ux * at[0] + from.uy * at[1] - from.startM
    const fromEnd = from.lengthM - fromStart
    const between = Math.max(start + inset, Math.min(end - inset, along(at) + both))
    const s =
      fromStart <= Math.min(NEAR_END_M, from.lengthM / 2)
        ? start + Math.min(fromStart, inset)
        : fromEnd <= NEAR_END_M
          ? end - Math.min(fromEnd, inset)
          : between
    const share = from.acrossM === 0 ? 0 : (from.ux * at[1] - from.uy * at[0] - from.middleM) / from.acrossM
    const [u, across] = [way * s, to.middleM + way * share * to.acrossM]
    return [to.ux * u - to.uy * across, to.uy * u + to.ux * across]
  }
}

const nearer = (a: number, b: number) => (Math.abs(a) <= Math.abs(b) ? a : b)

/** The place on the long middle, so many metres from its start. */
function placeOn({ ux, uy, startM, middleM }: LongAxis, fromStartM: number): Metres {
  const s = startM + fromStartM
  return [ux * s - uy * middleM, uy * s + ux * middleM]
}
