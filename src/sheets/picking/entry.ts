import { batch, computed, effect, signal } from '@preact/signals'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { NearPlanting } from '../../desk/door.ts'
import type { Thing } from '../../map/farmMap.ts'
import { ask } from '../state/door.ts'
import { history, openFarm, units } from '../state/farm.ts'
import { latest } from '../state/latest.ts'
import { containers, habits } from '../state/picking.ts'
import { on } from '../state/where.ts'
import { type UnitFor, unitsFor } from './containersFor.ts'
import type { PickKept } from './pickEdits.ts'
import { cropOf, isStoodBy, type PickPlace, placeFields, placeKey, placeMeant, seenFrom } from './pickPlace.ts'
import type { Position } from './position.ts'
import { readRemembered } from './remembered.ts'
import type { ShareLine } from './shareParts.ts'

/** What is told so far of the pick that is being entered, or put right. */
export interface Entry {
  readonly place: PickPlace | null
  /** True where a person chose the place for this pick: a new position does not move it then. */
  readonly byHand: boolean
  /** True where a person chose it for a pick before: it stays for as long as the position agrees. */
  readonly carried: boolean
  readonly typed: string
  /** Null: the unit that the crop was picked in last. */
  readonly unit: string | null
  /** Null: the day shown. */
  readonly day: string | null
  readonly picker: string | null
  readonly grade: string | null
  readonly note: string
  readonly shares: readonly ShareLine[]
  /** The pick being put right, and why. */
  readonly correcting: (PickKept & { readonly was: string }) | null
  readonly reason: string
}

export interface EntryFaults {
  readonly place?: string
  readonly quantity?: string
  readonly unit?: string
  readonly shares?: string
  readonly reason?: string
  readonly other?: string
}

export const blankEntry = (): Entry => ({
  place: null,
  byHand: false,
  carried: false,
  typed: '',
  unit: null,
  day: null,
  picker: readRemembered().picker,
  grade: null,
  note: '',
  shares: [],
  correcting: null,
  reason: '',
})

export const entry = signal<Entry>(blankEntry())
export const faults = signal<EntryFaults>({})
/** The pick kept last, in words, and the step that kept it, until the next is begun. */
export const kept = signal<{ readonly words: string; readonly step: string | null } | null>(null)
/** Its words while it is what was done last: whatever was done since, Undo would take that back. */
export const keptWords = computed(() => (kept.value?.step === history.value.undo ? (kept.value?.words ?? null) : null))
/** Places that are offered, and what they were found by. */
export const choices = signal<{
  readonly by: 'position' | 'tap' | 'last' | 'table'
  readonly places: readonly PickPlace[]
}>({
  by: 'last',
  places: [],
})
/** How far the nearest planting is from the device, in metres; null where there is none. */
export const nearestM = signal<number | null>(null)
/** The bed that the device stands in, or none. */
export const bedHere = signal<string | null>(null)

/** Units that may be told of the place; a pick that is put right keeps its own unit, with the weight that was used. */
export const offeredUnits = computed<readonly UnitFor[]>(() => {
  const { place, correcting } = entry.value
  const offered = unitsFor(cropOf(place), containers.value, habits.value?.units ?? [], units.value)
  const pick = correcting?.pick
  if (!pick || (place ? placeFields(place).planting : null) !== pick.planting) return offered
  const own = { unit: pick.unit, kg: pick.kg_per_unit, source: 'as it was entered' }
  return [own, ...offered.filter(({ unit }) => unit !== pick.unit)]
})
export const unitTold = computed(() => {
  const wanted = entry.value.unit
  return offeredUnits.value.find(({ unit }) => unit === wanted) ?? offeredUnits.value[0] ?? null
})
/** The day that the pick is told of. */
export const pickDay = computed(() => entry.value.day ?? on.value)

/** Takes in what was told; what was wrong with it is no longer said. */
export function tell(told: Partial<Entry>): void {
  batch(() => {
    const cropBefore = cropOf(entry.value.place)
    const next = { ...entry.value, ...told }
    const otherCrop = cropOf(next.place) !== cropBefore && told.unit === undefined && !next.correcting
    entry.value = otherCrop ? { ...next, unit: null } : next
    faults.value = {}
    if (told.typed || told.unit || told.byHand) kept.value = null
  })
}

/** What was told on one farm means nothing on another. */
const farmInHand = computed(() => openFarm.value?.entry.id)
effect(() => {
  farmInHand.value
  startAnew()
})

/** Forgets what was told so far and where it was found. */
export function startAnew(): void {
  batch(() => {
    entry.value = blankEntry()
    faults.value = {}
    kept.value = null
    nearestM.value = null
    bedHere.value = null
    choices.value = { by: 'last', places: [] }
  })
}

export function choosePlace(place: PickPlace): void {
  tell({ place, byHand: true, carried: false })
}

const asPlace = (planting: NearPlanting): PickPlace & { is: 'planting' } => {
  const { distanceM, ...named } = planting
  return { is: 'planting', planting: named, distanceM }
}

const MOST = 6

/** Offers what is nearest to where the device is, and takes it where it can only be that. */
export const seekNear = latest(async (here: Position) => {
  const { at } = here
  const reply = await ask('nearPlantings', { at, on: pickDay.value, most: MOST * 2 })
  if (!reply.ok) return
  const near = reply.value.plantings.map(asPlace)
  batch(() => {
    nearestM.value = near[0]?.distanceM ?? null
    if (entry.value.correcting) return
    const bed: readonly PickPlace[] = reply.value.bed ? [{ is: 'bed', bed: reply.value.bed }] : []
    const { place, byHand, carried } = entry.value
    if (choices.value.by !== 'tap' || !byHand)
      choices.value = { by: 'position', places: [...near.slice(0, MOST), ...bed, { is: 'spot', at }] }
    bedHere.value = reply.value.bed?.id ?? null
    const told = place && seenFrom(place, near)
    const stays = byHand || (carried && told !== null && isStoodBy(told, here, bedHere.value))
    if (stays) entry.value = { ...entry.value, place: told }
    else tell({ place: placeMeant(near, here.accuracyM), carried: false })
  })
})

/** Offers what lies about a place that was tapped on the map, what was tapped first. */
export async function placeTapped(thing: Thing | null, at: LonLat): Promise<void> {
  const reply = await ask('nearPlantings', { at, on: pickDay.value, most: MOST * 2 })
  if (!reply.ok) {
    faults.value = { place: reply.fault.detail }
    return
  }
  const near = reply.value.plantings.map(asPlace)
  const { bed } = reply.value
  const meant =
    thing?.kind === 'plantings'
      ? near.find(({ planting }) => planting.planting === thing.id)
      : thing?.kind === 'rows' || thing?.kind === 'beds'
        ? near.find(({ planting }) => (thing.kind === 'beds' ? planting.bed === thing.id : planting.bed === bed?.id))
        : undefined
  const beds: readonly PickPlace[] = bed ? [{ is: 'bed', bed }] : []
  const spot: PickPlace = { is: 'spot', at }
  const place = meant ?? beds[0] ?? spot
  const others = [...near.slice(0, MOST), ...beds, spot].filter((one) => placeKey(one) !== placeKey(place))
  choices.value = { by: 'tap', places: [place, ...others] }
  choosePlace(place)
}

/** Offers the plantings picked last, where nothing else tells where the pick is. */
export function offerLast(): void {
  if (choices.value.by !== 'last') return
  choices.value = {
    by: 'last',
    places: (habits.value?.places ?? []).map((planting) => ({ is: 'planting', planting, distanceM: null })),
  }
}
