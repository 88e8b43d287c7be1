import { signal } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'

/** What a tap on the map told: where, and the bed that it lies in, if any. */
export interface TapTold {
  readonly at: LonLat
  readonly bed: string | null
  readonly row: string | null
}

/** A form that wants the next taps on the map for itself; null while taps open cards. */
export const tapTaker = signal<((told: TapTold) => void) | null>(null)
