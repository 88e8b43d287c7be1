import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** So near, in degrees, is by the farm. */
const NEAR_DEG = 2

/** True where things lie far from the farm, and would lie by it if their north were taken for their east. */
export function swappedByFarm(middle: LonLat | null, farm: LonLat | null): boolean {
  if (!middle || !farm) return false
  const [lon, lat] = middle
  return !isNear([lon, lat], farm) && isNear([lat, lon], farm)
}

function isNear(at: LonLat, farm: LonLat): boolean {
  const lonDeg = Math.abs(at[0] - farm[0]) % 360
  return Math.min(lonDeg, 360 - lonDeg) < NEAR_DEG && Math.abs(at[1] - farm[1]) < NEAR_DEG
}
