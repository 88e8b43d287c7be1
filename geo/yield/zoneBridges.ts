import type { LongAxis } from '../plane/longAxis.ts'
import { clipWindow, type HalfPlane } from './clipHalfPlane.ts'
import type { Ring } from './ring.ts'
import type { YieldReport } from './yieldReport.ts'
import { type LowYieldZone, pairsAcrossAPath } from './zones.ts'

/** How far a bridge reaches into the beds on either side, and into the bridges beside it, so that rounding opens nothing. */
const GRIP_M = 0.02
const OVERLAP_M = 0.005

/**
 * The pieces of path between a zone's stretches: where two lie side by side, what is left when each is widened across
 * its bed by the path and the one is cut by the other. With them a zone over several beds is drawn as one.
 */
export function bridgesOf(zone: LowYieldZone, { ground, stretches }: YieldReport): Ring[] {
  const shapes = zone.stretches.map((s) => stretches[s]!)
  return pairsAcrossAPath(shapes.map((s) => s.rings)).flatMap(({ a, b, apartM }) => {
    const [one, other] = [shapes[a]!, shapes[b]!]
    if (one.bed === other.bed) return []
    const byM = apartM + GRIP_M
    const from = widenedSides(one.rings, ground[one.bed]!.axis, byM)
    const to = widenedSides(other.rings, ground[other.bed]!.axis, byM)
    return [...clipWindow([cornersOf(from)], to.sides)]
  })
}

type Widened = { readonly sides: readonly HalfPlane[]; readonly axis: LongAxis; readonly span: readonly number[] }

/** The rectangle along a bed's axis about a stretch, wider by so much on either side. */
function widenedSides(rings: readonly Ring[], axis: LongAxis, byM: number): Widened {
  const along: number[] = []
  const across: number[] = []
  for (const ring of rings) {
    for (let k = 0; k < ring.length; k += 2) {
      along.push(axis.ux * ring[k]! + axis.uy * ring[k + 1]!)
      across.push(axis.ux * ring[k + 1]! - axis.uy * ring[k]!)
    }
  }
  const [s0, s1] = [Math.min(...along) - OVERLAP_M, Math.max(...along) + OVERLAP_M]
  const [t0, t1] = [Math.min(...across) - byM, Math.max(...across) + byM]
  const { ux, uy } = axis
  const sides = [
    { nx: ux, ny: uy, c: s0 },
    { nx: -ux, ny: -uy, c: -s1 },
    { nx: -uy, ny: ux, c: t0 },
    { nx: uy, ny: -ux, c: -t1 },
  ]
  return { sides, axis, span: [s0, s1, t0, t1] }
}

function cornersOf({ axis: { ux, uy }, span }: Widened): Ring {
  const [s0, s1, t0, t1] = [span[0]!, span[1]!, span[2]!, span[3]!]
  const at = (s: number, t: number): number[] => [ux * s - uy * t, uy * s + ux * t]
  return [...at(s0, t0), ...at(s1, t0), ...at(s1, t1), ...at(s0, t1)]
}
