import type { Metres } from '../plane/lonLat.ts'
import type { Caster, Crown, Wall } from './caster.ts'
import type { SunPosition } from './sunPosition.ts'

/** The way to the sun in the plane: a unit vector, and how much a ray rises for each metre along it. */
export interface SunRay {
  readonly east: number
  readonly north: number
  readonly rise: number
}

/** The ray towards the sun, azimuths taken from the plane's own north; null while it is not above the horizon. */
export function rayTo({ altitudeDeg, azimuthDeg }: SunPosition): SunRay | null {
  if (!(altitudeDeg > 0)) return null
  const azimuth = (azimuthDeg * Math.PI) / 180
  return { east: Math.sin(azimuth), north: Math.cos(azimuth), rise: Math.tan((altitudeDeg * Math.PI) / 180) }
}

/** Whether a caster stands between a spot on the ground and the sun. */
export function isShaded(spot: Metres, caster: Caster, ray: SunRay): boolean {
  return caster.shape === 'wall' ? behindWall(spot, caster, ray) : behindCrown(spot, caster, ray)
}

/** The ray crosses the wall's line ahead of the spot, no higher than the wall. */
function behindWall([x, y]: Metres, { from, to, heightM }: Wall, { east, north, rise }: SunRay): boolean {
  const [ax, ay] = [from[0] - x, from[1] - y]
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const across = east * dy - north * dx
  if (across === 0) return false
  const ahead = (ax * dy - ay * dx) / across
  const along = (ax * north - ay * east) / across
  return ahead > 0 && ahead * rise <= heightM && along >= 0 && along <= 1
}

/** The ray meets the ellipsoid: stretched upright to a ball, its nearest point lies within the radius. */
function behindCrown([x, y]: Metres, { at, radiusM, lowM, highM }: Crown, { east, north, rise }: SunRay): boolean {
  const half = (highM - lowM) / 2
  if (!(half > 0 && radiusM > 0)) return false
  const up = radiusM / half
  const [cx, cy, cz] = [at[0] - x, at[1] - y, ((lowM + highM) / 2) * up]
  const climb = rise * up
  const length2 = 1 + climb * climb
  const ahead = (cx * east + cy * north + cz * climb) / length2
  if (ahead <= 0) return false
  const away2 = (cx - ahead * east) ** 2 + (cy - ahead * north) ** 2 + (cz - ahead * climb) ** 2
  return away2 <= radiusM * radiusM
}
