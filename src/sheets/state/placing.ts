import { signal } from '@preact/signals'
import type { ComponentType } from 'preact'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { MapPhoto } from '../../map/farmMap.ts'
import { whenFarmLeft } from './leaving.ts'

/** A picture being placed by control points: what stands beside the map meanwhile, and what taps on the map do. */
export interface Placer {
  readonly Picture: ComponentType
  readonly Panel: ComponentType
  /** Takes a tap on the map. */
  take(at: LonLat): void
}

export const placer = signal<Placer | null>(null)
/** The picture as it would lie, for the map. */
export const placedNow = signal<MapPhoto | null>(null)
/** The kept photo that is being placed anew, which is not shown meanwhile. */
export const placedAnew = signal<string | null>(null)

/** Ends the placing; what was not kept is gone. */
export function stopPlacing(): void {
  placer.value = null
  placedNow.value = null
  placedAnew.value = null
}
whenFarmLeft(stopPlacing)
