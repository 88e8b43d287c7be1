import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** Farther from the farm's middle its plane's metres are no longer true. */
const MOST_KM = 50

/** How many whole kilometres a place lies from the farm's middle, where that is too far; else null. */
export function tooFarKm(origin: LonLat, at: LonLat): number | null {
  const km = kmApart(origin, at)
  return km > MOST_KM ? Math.round(km) : null
}

/** Great-circle distance on a sphere, for telling near from far. */
function kmApart([lon1, lat1]: LonLat, [lon2, lat2]: LonLat): number {
  const rad = Math.PI / 180
  const h =
    Math.sin(((lat2 - lat1) * rad) / 2) ** 2 +
    Math.cos(lat1 * rad) * Math.cos(lat2 * rad) * Math.sin(((lon2 - lon1) * rad) / 2) ** 2
  return 2 * 6371 * Math.asin(Math.sqrt(Math.min(1, h)))
}
