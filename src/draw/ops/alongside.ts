import { longAxis } from '../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'

/** Between what: from edge to edge (the path between), or from middle to middle. */
export type Spacing = { readonly betweenM: number } | { readonly pitchM: number }

/**
 * By how much each of `count` copies is moved to stand alongside corners that run in a direction: square to their long
 * axis, to its right (`side` 1, looking along a bearing from 0 to below 180) or left (-1), each as far from the one before.
 */
export function alongside(
  corners: readonly Metres[],
  count: number,
  spacing: Spacing,
  side: 1 | -1,
): readonly Metres[] {
  const axis = corners.length > 2 ? longAxis(corners) : null
  const [a, b] = [corners[0]!, corners.at(-1)!]
  const size = axis ? 1 : distanceM(a, b)
  const line: Metres = axis ? [axis.ux, axis.uy] : size > 0 ? [(b[0] - a[0]) / size, (b[1] - a[1]) / size] : [0, 1]
  // As bearings are told: from north clockwise to below south.
  const east = line[0] > 1e-12 || (Math.abs(line[0]) <= 1e-12 && line[1] > 0) ? 1 : -1
  const right: Metres = [line[1] * east * side, -line[0] * east * side]
  const aside = corners.map((p) => p[0] * right[0] + p[1] * right[1])
  const acrossM = Math.max(...aside) - Math.min(...aside)
  const pitchM = 'pitchM' in spacing ? spacing.pitchM : acrossM + spacing.betweenM
  return Array.from({ length: count }, (_, n): Metres => [right[0] * pitchM * (n + 1), right[1] * pitchM * (n + 1)])
}
