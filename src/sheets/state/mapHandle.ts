import { signal } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { FarmMap, Hover, MapView } from '../../map/farmMap.ts'

/** The one map, once it is there. */
export const farmMap = signal<FarmMap | null>(null)
/** The view as the map last told it: the scale bar and the north arrow follow it. */
export const mapView = signal<MapView | null>(null)
export const hover = signal<Hover | null>(null)
/** Where the map was tapped last: what a pointer tells by hovering, a finger asks by a tap. */
export const tapped = signal<LonLat | null>(null)
export const mapFault = signal<string | null>(null)
