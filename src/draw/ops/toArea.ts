import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import { type Corners, twiceArea } from '../shape.ts'

/**
 * Where the next corner of a ring comes so that it encloses so many square metres, in the direction of `toward` from
 * the last corner. The area grows evenly along that way; null where it can't be reached in that direction.
 */
export function toArea(corners: Corners, toward: Metres, areaM2: number): Metres | null {
  const last = corners.at(-1)
  if (!last || corners.length < 2) return null
  const size = distanceM(last, toward)
  if (size === 0) return null
  const [ux, uy] = [(toward[0] - last[0]) / size, (toward[1] - last[1]) / size]
  const now = twiceArea(corners)
  const perM = twiceArea([...corners, [last[0] + ux, last[1] + uy]]) - now
  if (Math.abs(perM) < 1e-9) return null
  const ways = [(2 * areaM2 - now) / perM, (-2 * areaM2 - now) / perM].filter((m) => m > 0)
  if (ways.length === 0) return null
  const m = Math.min(...ways)
  return [last[0] + ux * m, last[1] + uy * m]
}
