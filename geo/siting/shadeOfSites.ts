import type { LonLat, Metres } from '../plane/lonLat.ts'
import { reachM } from '../sun/caster.ts'
import { LEAST_ALTITUDE_DEG, type SunHour, shadeHours, sunHours } from '../sun/shadeHours.ts'

/** A bed's ground as spots, each for so many square metres of it. */
export interface SpottedBed {
  readonly middle: readonly [Metres, Metres]
  readonly lengthM: number
  readonly areaM2: number
}

const EVERY_M = 2
/** Across a bed: a sixth, a half and five sixths of its width. */
const ACROSS = [-1 / 3, 0, 1 / 3]

/**
 * Direct sun that a leafed support takes from beds: m²·h a day, the mean over a growing season (April to September north
 * of the equator, October to March south of it), on flat ground and with nothing else in the sun's way.
 */
export function shadeOfSites(
  beds: readonly SpottedBed[],
  lines: readonly (readonly [Metres, Metres])[],
  heightM: number,
  origin: LonLat,
  season: number,
): number[] {
  const [from, to] =
    origin[1] >= 0 ? [`${season}-04-01`, `${season}-09-30`] : [`${season}-10-01`, `${season + 1}-03-31`]
  const days = 1 + Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)
  const sun = sunHours(origin, { from, to, everyDays: 20, everyMinutes: 40 })
  const spots = beds.map(spotsOf)
  return lines.map(([a, b]) => lostTo([a, b], heightM, beds, spots, sun) / days)
}

function lostTo(
  [from, to]: readonly [Metres, Metres],
  heightM: number,
  beds: readonly SpottedBed[],
  spots: readonly (readonly Metres[])[],
  sun: readonly SunHour[],
): number {
  const wall = { shape: 'wall', from, to, heightM } as const
  const far = reachM(wall, LEAST_ALTITUDE_DEG)
  return beds.reduce((sum, { areaM2, middle, lengthM }, n) => {
    const [mx, my] = [(middle[0][0] + middle[1][0]) / 2, (middle[0][1] + middle[1][1]) / 2]
    const [wx, wy] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
    const apart = Math.hypot(mx - wx, my - wy)
    if (apart > far + lengthM / 2 + Math.hypot(to[0] - from[0], to[1] - from[1]) / 2) return sum
    const own = spots[n]!
    const { lostHours } = shadeHours(own, [wall], sun)
    return sum + (areaM2 / own.length) * lostHours.reduce((hours, one) => hours + one, 0)
  }, 0)
}

function spotsOf({ middle: [[ax, ay], [bx, by]], lengthM, areaM2 }: SpottedBed): Metres[] {
  const count = Math.max(1, Math.round(lengthM / EVERY_M))
  const [ux, uy] = [(bx - ax) / lengthM, (by - ay) / lengthM]
  const widthM = areaM2 / lengthM
  return Array.from({ length: count }, (_, n) => ((n + 0.5) / count) * lengthM).flatMap((along) =>
    ACROSS.map((part): Metres => [ax + ux * along + uy * part * widthM, ay + uy * along - ux * part * widthM]),
  )
}
