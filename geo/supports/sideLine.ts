import { longAxis } from '../plane/longAxis.ts'
import type { Metres } from '../plane/lonLat.ts'

export const SIDES = ['left', 'middle', 'right'] as const
export type Side = (typeof SIDES)[number]

/** A run at an edge stands so far inside of it. */
export const INSIDE_EDGE_M = 0.15

/**
 * The line along a bed at one of its sides, left and right as one looks along its bearing, in the plane: from end to end
 * of its least rectangle, 0.15 m inside an edge (a quarter of its width in where the bed is narrower than 0.6 m). Null
 * where the outline has no area.
 */
export function sideLine(outline: readonly Metres[], side: Side): readonly [Metres, Metres] | null {
  const axis = longAxis(outline)
  if (!axis) return null
  const { ux, uy, startM, lengthM } = axis
  const across = outline.map(([x, y]) => x * uy - y * ux)
  const [left, right] = [Math.min(...across), Math.max(...across)]
  const inM = Math.min(INSIDE_EDGE_M, (right - left) / 4)
  const at = side === 'left' ? left + inM : side === 'right' ? right - inM : (left + right) / 2
  const point = (along: number): Metres => [along * ux + at * uy, along * uy - at * ux]
  return [point(startM), point(startM + lengthM)]
}
