import { greatCircleM } from '../../../geo/plane/farthest.ts'
import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** Farther from the farm's middle its plane's metres are no longer true. */
const MOST_KM = 50

/** How many whole kilometres a place lies from the farm's middle, where that is too far; else null. */
export function tooFarKm(origin: LonLat, at: LonLat): number | null {
  const km = greatCircleM(origin, at) / 1000
  return km > MOST_KM ? Math.round(km) : null
}
