import { computed } from '@preact/signals'
import { LEAST_ALTITUDE_DEG } from '../../../geo/sun/shadeHours.ts'
import { daylight, type SunPosition, sunPosition } from '../../../geo/sun/sunPosition.ts'
import { openFarm } from '../state/farm.ts'
import { afterNoonMin } from '../state/siting.ts'
import { on } from '../state/where.ts'

/** The slider goes by so many minutes. */
export const STEP_MIN = 10

/** The light of the day shown, and where the sun stands at the time shown. */
export interface DaySun {
  readonly noonMs: number
  /** Minutes that the day's light lasts to both sides of its middle, down to a step. */
  readonly halfMin: number
  readonly atMs: number
  readonly sun: SunPosition
  /** The sun stands high enough for shadows that end on the farm. */
  readonly high: boolean
}

/** Null where the sun does not rise that day, or the farm has no place yet. */
export const daySun = computed<DaySun | null>(() => {
  const origin = openFarm.value?.origin
  const light = origin ? daylight(on.value, origin) : null
  if (!origin || !light) return null
  const noonMs = (light.riseMs + light.setMs) / 2
  const halfMin = Math.floor((light.setMs - light.riseMs) / 120_000 / STEP_MIN) * STEP_MIN
  const after = Math.max(-halfMin, Math.min(halfMin, afterNoonMin.value))
  const atMs = noonMs + after * 60_000
  const sun = sunPosition(atMs, origin)
  return { noonMs, halfMin, atMs, sun, high: sun.altitudeDeg >= LEAST_ALTITUDE_DEG }
})

/** A moment by the farm's own clock; where its time zone is not told, by the sun (noon when it stands highest, within a quarter of an hour). */
export function showFarmClock(ms: number): string {
  const zone = openFarm.value?.farm.timezone ?? null
  const form = { hour: '2-digit', minute: '2-digit' } as const
  try {
    if (zone !== null) return new Intl.DateTimeFormat(undefined, { ...form, timeZone: zone }).format(new Date(ms))
  } catch {
    // A zone that this device does not know is told as if there were none.
  }
  const bySun = ms + ((openFarm.value?.origin?.[0] ?? 0) / 15) * 3_600_000
  return `${new Intl.DateTimeFormat(undefined, { ...form, timeZone: 'UTC' }).format(new Date(bySun))} by the sun`
}

const POINTS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'] as const

/** A bearing in words: eight points of the compass. */
export const compassPoint = (bearingDeg: number): string =>
  POINTS[Math.round((((bearingDeg % 360) + 360) % 360) / 45) % 8]!
