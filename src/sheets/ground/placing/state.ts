import { computed, signal } from '@preact/signals'
import { fitPhoto } from '../../../../geo/photo/fitPhoto.ts'
import type { Spot } from '../../../../geo/photo/homography.ts'
import { isPhotoFault } from '../../../../geo/photo/placement.ts'
import { placeByFit } from '../../../../geo/photo/placePhoto.ts'
import type { LonLat } from '../../../../geo/plane/lonLat.ts'
import type { DeskFault, PhotoFile } from '../../../desk/door.ts'
import { METRES_PER_FOOT } from '../../show/figures.ts'
import { openFarm, units } from '../../state/farm.ts'
import { newId } from '../../state/newId.ts'
import type { Placed } from './placeOf.ts'
import { type Mark, type Placing, readOnFarm, readPlacing, type TypedGuess, writePlace } from './readPlacing.ts'

/** What the picture being placed came from: files just chosen, read whole or by parts, or a photo of the farm. */
export type Source =
  | { readonly files: readonly PhotoFile[] }
  | { readonly large: readonly File[] }
  | { readonly id: string }

export const source = signal<Source | null>(null)
export const placing = signal<Placing | null>(null)
/** The picture itself, and its strength over the beds while it is placed. */
export const image = signal<ImageBitmap | null>(null)
export const strength = signal(1)
export const chosenMark = signal<string | null>(null)
export const keepFault = signal<DeskFault | null>(null)
/** What the picture's own tags said, in words. */
export const saidByPicture = signal<string | null>(null)

const origin = () => openFarm.value?.origin ?? null
export const metresPer = computed(() => (units.value === 'us' ? METRES_PER_FOOT : 1))

export const read = computed(() => placing.value && readPlacing(placing.value, origin(), metresPer.value))

/** The fit with its errors, or in words why there is none yet. */
export const outcome = computed((): Placed | string | null => {
  const now = read.value
  if (!now) return null
  const { plane, told } = now
  if (!plane || !told) return 'Say roughly where the picture lies: type a place below, or take where this device is.'
  const fit = fitPhoto(told)
  if (isPhotoFault(fit)) return fit.detail
  const placed = placeByFit(fit.transform, plane.origin, told.widthPx, told.heightPx)
  if (isPhotoFault(placed)) return 'These points would put the picture off the map. Look for one that is wrong.'
  return { plane, fit, placed, points: told.points, tapes: told.tapes }
})

const change = (to: Partial<Placing>) => {
  if (placing.value) placing.value = { ...placing.value, ...to }
}

export { change as changePlacing }

export const changeGuess = (to: Partial<TypedGuess>) => {
  if (placing.value) change({ guess: { ...placing.value.guess, ...to } })
}

export function changeMark(id: string, to: Partial<Mark>): void {
  change({ marks: placing.value?.marks.map((mark) => (mark.id === id ? { ...mark, ...to } : mark)) ?? [] })
}

export function removeMark(id: string): void {
  const now = placing.value
  if (!now) return
  change({
    marks: now.marks.filter((mark) => mark.id !== id),
    tapes: now.tapes.filter(({ from, to }) => from !== id && to !== id),
  })
  if (chosenMark.value === id) chosenMark.value = null
}

const addMark = (made: Pick<Mark, 'spot' | 'place' | 'typed'>): void => {
  const mark: Mark = { id: newId(), fault: null, ...made }
  change({ marks: [...(placing.value?.marks ?? []), mark] })
  chosenMark.value = mark.id
}

/** The mark that waits for its other half: the chosen one, else the first. */
const waitingFor = (half: 'spot' | 'place'): Mark | undefined => {
  const waiting = placing.value?.marks.filter((mark) => mark[half] === null) ?? []
  return waiting.find(({ id }) => id === chosenMark.value) ?? waiting[0]
}

/** A tap in the picture: the spot of a point that has only a place, else a new point. */
export function takeSpot(spot: Spot): void {
  const waiting = placing.value?.marks.find((mark) => mark.spot === null)
  if (waiting) {
    changeMark(waiting.id, { spot })
    chosenMark.value = waiting.id
  } else addMark({ spot, place: null, typed: '' })
}

/** A tap on the map: the place of a point that has only a spot, else a new point. */
export function takePlace(place: LonLat): void {
  const waiting = waitingFor('place')
  const typed = writePlace(place)
  if (waiting) {
    changeMark(waiting.id, { place, typed, fault: null })
    chosenMark.value = waiting.id
  } else addMark({ spot: null, place, typed })
}

/** A place typed beside a point; empty takes it away. What can't be read stays as it was typed, with why. */
export function typePlace(id: string, typed: string): void {
  const at = typed.trim() === '' ? null : readOnFarm(typed, origin())
  if (at === null) changeMark(id, { place: null, typed: '', fault: null })
  else if (typeof at === 'string') changeMark(id, { place: null, typed, fault: at })
  else changeMark(id, { place: at, typed, fault: null })
}

/** A new taped distance, between the last two spots that none joins yet. */
export function addTape(): void {
  const now = placing.value
  const spots = now?.marks.filter(({ spot }) => spot !== null) ?? []
  const [from, to] = spots.slice(-2)
  if (now && from && to) change({ tapes: [...now.tapes, { id: newId(), from: from.id, to: to.id, typed: '' }] })
}
