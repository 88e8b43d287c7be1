import { signal } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** Where the device is, and within how many metres (95 % by the W3C's Geolocation API, "accuracy"). */
export interface Position {
  readonly at: LonLat
  readonly accuracyM: number
}

export const position = signal<Position | null>(null)
export const positionFault = signal<string | null>(null)
export const following = signal(false)

let watch: number | null = null

/** Follows the device until `stopFollowing`; the device may ask the person first. */
export function follow(): void {
  if (watch !== null) return
  if (!('geolocation' in navigator)) {
    positionFault.value = 'This device tells no position.'
    return
  }
  positionFault.value = null
  following.value = true
  watch = navigator.geolocation.watchPosition(
    ({ coords }) => {
      positionFault.value = null
      position.value = { at: [coords.longitude, coords.latitude], accuracyM: coords.accuracy }
    },
    (error) => {
      const refused = error.code === error.PERMISSION_DENIED
      positionFault.value = refused
        ? 'The device may not tell its position. Tap the map instead.'
        : 'The device does not know where it is yet. Tap the map instead.'
      if (refused) stopFollowing()
    },
    { enableHighAccuracy: true, maximumAge: 5000, timeout: 20_000 },
  )
}

/** Follows at once where the person has allowed it before: nobody is asked anything. */
export async function followIfAllowed(): Promise<void> {
  const allowed = await navigator.permissions?.query({ name: 'geolocation' }).catch(() => null)
  if (allowed?.state === 'granted') follow()
}

export function stopFollowing(): void {
  if (watch !== null) navigator.geolocation.clearWatch(watch)
  watch = null
  following.value = false
  position.value = null
}
