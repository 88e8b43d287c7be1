import { type LongAxis, longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import type { Corners } from '../shape.ts'
import { motion, type Place } from './moved.ts'

/** Corners that a motion meets within this are moved by it: a tenth of a millimetre. */
const RIGID_M = 1e-4

/**
 * Where what lies in a bed goes when its outline becomes another. A bed that was only moved and turned takes everything
 * with it as it lay; one that was reshaped keeps everything at the same share of its length and width (of its least
 * rectangle), its ends and edges at its ends and edges.
 */
export function carry(before: Corners, after: Corners): Place {
  return rigid(before, after) ?? byShare(before, after)
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

function byShare(before: Corners, after: Corners): Place {
  const [from, to] = [longAxis(before), longAxis(after)]
  if (!from || !to) return (at) => at
  // The same way along both, so that nothing is turned end for end where the axis passes through north.
  const way = from.ux * to.ux + from.uy * to.uy >= 0 ? 1 : -1
  const share = frame(from)
  return (at) => {
    const [s, t] = share(at)
    const along = to.startM + (way === 1 ? s : 1 - s) * to.lengthM
    const across = to.middleM + way * t * to.acrossM
    return [to.ux * along - to.uy * across, to.uy * along + to.ux * across]
  }
}

/** A place as its share along (0 to 1) and across (−½ to ½) a bed. */
const frame =
  ({ ux, uy, startM, lengthM, middleM, acrossM }: LongAxis) =>
  ([x, y]: Metres): Metres => [
    (ux * x + uy * y - startM) / lengthM,
    acrossM === 0 ? 0 : (ux * y - uy * x - middleM) / acrossM,
  ]
