import { longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import type { Segment } from '../snap.ts'
import { type Motion, middleOf, motion } from './moved.ts'

export interface Alignment {
  /** Metres between the side and what is brought to it; null leaves the distance as it is. */
  readonly gapM: number | null
  /** Brings the ends level: what is nearest to an end of the side comes to stand square to that end. */
  readonly endsLevel: boolean
}

/**
 * The motion that brings corners alongside a segment: turned the least way about their middle until their long axis is
 * parallel to it, then, if asked, moved to so many metres from it on the side where they are, and level with its nearer
 * end. Null where the corners have no direction.
 */
export function alignTo(corners: readonly Metres[], [a, b]: Segment, { gapM, endsLevel }: Alignment): Motion | null {
  const size = distanceM(a, b)
  const direction = directionOf(corners)
  if (size === 0 || !direction) return null
  const [ux, uy]: Metres = [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
  const about = middleOf(corners)
  const turn = Math.atan2(direction[0] * uy - direction[1] * ux, direction[0] * ux + direction[1] * uy)
  const half = turn > Math.PI / 2 ? turn - Math.PI : turn < -Math.PI / 2 ? turn + Math.PI : turn
  const turnDeg = (-half * 180) / Math.PI
  const turned = corners.map(motion({ about, turnDeg, by: [0, 0] }))
  const along = turned.map(([x, y]) => (x - a[0]) * ux + (y - a[1]) * uy)
  const aside = turned.map(([x, y]) => (y - a[1]) * ux - (x - a[0]) * uy)
  const [low, high] = [Math.min(...along), Math.max(...along)]
  const [right, left] = [Math.min(...aside), Math.max(...aside)]
  const across = gapM === null ? 0 : left + right >= 0 ? gapM - right : -gapM - left
  const level = !endsLevel ? 0 : Math.abs(low) <= Math.abs(high - size) ? -low : size - high
  return { about, turnDeg, by: [ux * level - uy * across, uy * level + ux * across] }
}

/** The way a shape runs: along its long axis, or between the ends of a line. */
function directionOf(corners: readonly Metres[]): Metres | null {
  const axis = corners.length > 2 ? longAxis(corners) : null
  if (axis) return [axis.ux, axis.uy]
  const [a, b] = [corners[0], corners.at(-1)]
  return a && b && distanceM(a, b) > 0 ? [b[0] - a[0], b[1] - a[1]] : null
}
