import { type LonLat, lonAbout } from '../plane/lonLat.ts'
import { shown } from './faults.ts'

/** Twice a triangle's area against its reach squared: less is a line, but for how floats are rounded. */
const FLAT = 1e-9

/**
 * Why a photo can't lie between four corners (around it, lon/lat), or null. Corners on both sides of the 180th meridian may
 * have their longitudes written beyond ±180.
 */
export function whyNoCorners(corners: readonly LonLat[]): string | null {
  const lons = corners.map(([lon]) => lon)
  const isAcross = [-180, 180].some((edge) => Math.min(...lons) < edge && Math.max(...lons) > edge)
  for (const [lon, lat] of corners) {
    const at = shown([lon, lat])
    if (Math.abs(lat) > 90) {
      const swapped = Math.abs(lon) <= 90 && Math.abs(lat) <= 180 ? ' (lon and lat look swapped)' : ''
      return `${at} is no place on earth${swapped}`
    }
    if (Math.abs(lon) > (isAcross ? 360 : 180)) return `${at} has a longitude outside ±180`
  }
  const around = corners.map(([lon, lat]): LonLat => [lonAbout(lons[0]!, lon), lat])
  for (let i = 0; i < 4; i++)
    for (let j = 0; j < i; j++)
      if (around[i]![0] === around[j]![0] && around[i]![1] === around[j]![1])
        return `corners ${j + 1} and ${i + 1} are both at ${shown(corners[i])}`
  const turns = around.map((corner, i) => turn(corner, around[(i + 1) % 4]!, around[(i + 2) % 4]!))
  const reach = Math.max(...around.map(([lon, lat]) => Math.hypot(lon - around[0]![0], lat - around[0]![1])))
  if (turns.some((one) => Math.abs(one) < FLAT * reach ** 2)) return 'have three in one line'
  const left = turns.filter((one) => one > 0).length
  if (left === 2) return 'cross: they must go around the photo from its upper left one'
  return left === 0 || left === 4 ? null : 'have one that lies inside the other three'
}

/** Above zero where the way over three places turns left, below where right, zero where it goes straight on. */
function turn([ax, ay]: LonLat, [bx, by]: LonLat, [cx, cy]: LonLat): number {
  return (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
}
