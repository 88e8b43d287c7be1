import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { PlantingNamed } from '../../desk/door.ts'
import type { Position } from './position.ts'

/** Where a pick is made: a planting, a bed as a whole, or a spot on the ground. */
export type PickPlace =
  | { readonly is: 'planting'; readonly planting: PlantingNamed; readonly distanceM: number | null }
  | { readonly is: 'bed'; readonly bed: { readonly id: string; readonly name: string } }
  | { readonly is: 'spot'; readonly at: LonLat }

/** What the record keeps of a place: one of planting, bed, or lon and lat. */
export interface PlaceFields {
  readonly planting: string | null
  readonly bed: string | null
  readonly lon: number | null
  readonly lat: number | null
}

const NOWHERE: PlaceFields = { planting: null, bed: null, lon: null, lat: null }

export function placeFields(place: PickPlace): PlaceFields {
  if (place.is === 'planting') return { ...NOWHERE, planting: place.planting.planting }
  if (place.is === 'bed') return { ...NOWHERE, bed: place.bed.id }
  return { ...NOWHERE, lon: place.at[0], lat: place.at[1] }
}

/** The crop that a place tells of; a bed or a spot tells none. */
export const cropOf = (place: PickPlace | null): string | null =>
  place?.is === 'planting' ? place.planting.crop : null

export const cropNameOf = (place: PickPlace | null): string | null =>
  place?.is === 'planting' ? place.planting.cropName : null

export function placeKey(place: PickPlace): string {
  return place.is === 'planting' ? place.planting.planting : place.is === 'bed' ? `bed ${place.bed.id}` : 'spot'
}

/** The place in words, for a chip: where, and under it what stands there. */
export function sayPlace(place: PickPlace): { readonly where: string; readonly what: string } {
  if (place.is === 'bed') return { where: place.bed.name, what: 'whole bed' }
  if (place.is === 'spot') return { where: 'This spot', what: 'no bed told' }
  const { bedName, side, cropName, variety } = place.planting
  return { where: side === null ? bedName : `${bedName} ${side}`, what: `${cropName}, ${variety}` }
}

type NearPlace = PickPlace & { readonly is: 'planting' }

/** So far from what grows may stand who picks it, beside what the position is unsure by. */
const ARM_M = 5

/** A place as told before, as far off as the device is now; null of a planting that is not among the nearest. */
export function seenFrom(place: PickPlace, near: readonly NearPlace[]): PickPlace {
  if (place.is !== 'planting') return place
  return { ...place, distanceM: near.find((one) => placeKey(one) === placeKey(place))?.distanceM ?? null }
}

/** Whether a device so placed, in this bed or in none, stands by a place that is seen from there. */
export function isStoodBy(place: PickPlace, { at, accuracyM }: Position, bed: string | null): boolean {
  if (place.is === 'bed') return place.bed.id === bed
  const offM = place.is === 'planting' ? place.distanceM : Math.hypot(...planeAbout(at).toMetres(place.at))
  return offM !== null && offM <= reachOf(accuracyM) + ARM_M
}

const reachOf = (accuracyM: number) => Math.max(accuracyM, 1)

/**
 * The place that a position means by itself: the nearest planting, if the device is sure enough. It is not where another
 * crop or bed stands as near as the position is unsure, nor where the position lies away from everything.
 */
export function placeMeant(near: readonly NearPlace[], accuracyM: number): PickPlace | null {
  const [first, ...others] = near
  if (!first || first.distanceM === null) return null
  const reachM = reachOf(accuracyM)
  if (first.distanceM > reachM + ARM_M) return null
  const doubtful = others.some(
    ({ planting, distanceM }) =>
      distanceM !== null && distanceM <= first.distanceM! + reachM && planting.crop !== first.planting.crop,
  )
  return doubtful ? null : first
}
