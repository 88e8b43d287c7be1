import type { LonLat, Metres } from '../plane/lonLat.ts'
import { type Caster, reachM } from './caster.ts'
import { isShaded, rayTo, type SunRay } from './isShaded.ts'
import { daylight, sunPosition } from './sunPosition.ts'

/** When the sun is looked at: every so many minutes of daylight on every so many days from one day to another. */
export interface SunTimes {
  readonly from: string
  readonly to: string
  readonly everyDays: number
  readonly everyMinutes: number
}

/** A ray and the hours of sun that it stands for, over all days between those looked at. */
export interface SunHour {
  readonly ray: SunRay
  readonly hours: number
}

/** Below so much the sun warms little and every shadow is endless: it is left out, and said. */
export const LEAST_ALTITUDE_DEG = 5
const DAY_MS = 86_400_000

/** The sun's rays over a place in that time, each for its share of the hours; the plane's north is true north at its origin. */
export function sunHours(origin: LonLat, { from, to, everyDays, everyMinutes }: SunTimes): SunHour[] {
  const days = 1 + Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS)
  const hours: SunHour[] = []
  for (let day = 0; day < days; day += everyDays) {
    // The days looked at stand for those after them, in the middle of which the sun is asked.
    const stands = Math.min(everyDays, days - day)
    const middle = day + Math.floor((stands - 1) / 2)
    const light = daylight(new Date(Date.parse(from) + middle * DAY_MS).toISOString().slice(0, 10), origin)
    if (!light) continue
    const steps = Math.max(1, Math.round((light.setMs - light.riseMs) / (everyMinutes * 60_000)))
    const stepMs = (light.setMs - light.riseMs) / steps
    for (let step = 0; step < steps; step++) {
      const sun = sunPosition(light.riseMs + (step + 0.5) * stepMs, origin)
      const ray = sun.altitudeDeg < LEAST_ALTITUDE_DEG ? null : rayTo(sun)
      if (ray) hours.push({ ray, hours: (stepMs / 3_600_000) * stands })
    }
  }
  return hours
}

/** Hours of direct sun that spots had in that time, and how many of them casters took. */
export interface Shade {
  readonly sunHours: number
  /** By spot, in the order given. */
  readonly lostHours: readonly number[]
}

/** Reckons, for each spot, the hours in which at least one caster stands between it and the sun. */
export function shadeHours(spots: readonly Metres[], casters: readonly Caster[], sun: readonly SunHour[]): Shade {
  const total = sun.reduce((sum, { hours }) => sum + hours, 0)
  const lostHours = spots.map((spot) => {
    const near = casters.filter((caster) => distanceM(spot, caster) <= reachM(caster, LEAST_ALTITUDE_DEG))
    if (near.length === 0) return 0
    return sun.reduce(
      (sum, { ray, hours }) => (near.some((caster) => isShaded(spot, caster, ray)) ? sum + hours : sum),
      0,
    )
  })
  return { sunHours: total, lostHours }
}

function distanceM([x, y]: Metres, caster: Caster): number {
  if (caster.shape === 'crown') return Math.hypot(caster.at[0] - x, caster.at[1] - y)
  const { from, to } = caster
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const length2 = dx * dx + dy * dy
  const share = length2 === 0 ? 0 : ((x - from[0]) * dx + (y - from[1]) * dy) / length2
  const t = Math.min(1, Math.max(0, share))
  return Math.hypot(from[0] + t * dx - x, from[1] + t * dy - y)
}
