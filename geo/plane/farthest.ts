import type { LonLat } from './lonLat.ts'

/** Nothing of one farm lies further than this from its origin; beyond, its plane would mislead. */
export const FARTHEST_M = 100_000

const EARTH_RADIUS_M = 6_371_009

/** Great-circle distance on a sphere, by haversines; only to tell what is far, never a figure that is shown as measured. */
export function greatCircleM([lonA, latA]: LonLat, [lonB, latB]: LonLat): number {
  const rad = Math.PI / 180
  const h =
    Math.sin(((latB - latA) * rad) / 2) ** 2 +
    Math.cos(latA * rad) * Math.cos(latB * rad) * Math.sin(((lonB - lonA) * rad) / 2) ** 2
  return 2 * EARTH_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(h)))
}
