import { getPosition } from 'suncalc'
import type { LonLat } from '../plane/lonLat.ts'

/** Where the sun stands: altitude above the horizon as seen (refraction counted in), azimuth clockwise from true north. */
export interface SunPosition {
  readonly altitudeDeg: number
  readonly azimuthDeg: number
}

/** The sun at an instant (ms since 1970) over a place; SunCalc, after Meeus 1998, to some hundredths of a degree. */
export function sunPosition(atMs: number, [lon, lat]: LonLat): SunPosition {
  const { altitude, azimuth } = getPosition(new Date(atMs), lat, lon)
  return { altitudeDeg: altitude, azimuthDeg: azimuth }
}

/** Sunrise and sunset about the solar noon of a day (`YYYY-MM-DD`) at a place, ms since 1970: the sun's upper edge on the horizon; null where it does not rise that day, midnight to midnight where it does not set. */
export function daylight(day: string, place: LonLat): { riseMs: number; setMs: number } | null {
  const noonMs = Date.parse(`${day}T12:00:00Z`) - (place[0] / 360) * DAY_MS
  const [before, after] = [noonMs - DAY_MS / 2, noonMs + DAY_MS / 2]
  if (!isUp(noonMs, place)) return null
  return { riseMs: crossing(before, noonMs, place), setMs: crossing(after, noonMs, place) }
}

const DAY_MS = 86_400_000
/** Half the sun's breadth. */
const RADIUS_DEG = 16 / 60

const isUp = (atMs: number, place: LonLat) => sunPosition(atMs, place).altitudeDeg > -RADIUS_DEG

/** The instant between one when the sun is down and one when it is up; the first where it is up then too. By halves, to a tenth of a second. */
function crossing(downMs: number, upMs: number, place: LonLat): number {
  if (isUp(downMs, place)) return downMs
  let [down, up] = [downMs, upMs]
  while (Math.abs(up - down) > 100) {
    const middle = (up + down) / 2
    if (isUp(middle, place)) up = middle
    else down = middle
  }
  return (up + down) / 2
}
