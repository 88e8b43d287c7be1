import { batch } from '@preact/signals'
import { type Figure, massFigure, showNumber, told } from '../show/figures.ts'
import { history, units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { doEdits, undo } from '../state/steps.ts'
import { on } from '../state/where.ts'
import { blankEntry, type Entry, type EntryFaults, entry, faults, kept, pickDay, unitTold } from './entry.ts'
import { quantityOf } from './numberPad.ts'
import { correctedPick, newPick, type PickTold } from './pickEdits.ts'
import { cropNameOf, placeFields, sayPlace } from './pickPlace.ts'
import { readRemembered, remember } from './remembered.ts'
import { leftOf, sayShares } from './shareParts.ts'

/** A second tap on Keep within so long belongs to the first. */
const TWICE_MS = 600
let keptMs = 0

/** Keeps the pick that is told, as one step; or tells at its place what is missing. Nothing told is lost by a fault. */
export async function keepPick(): Promise<void> {
  const now = entry.value
  if (kept.value && now.typed === '' && performance.now() - keptMs < TWICE_MS) return
  const read = asTold(now)
  if ('faults' in read) {
    faults.value = read.faults
    return
  }
  const words = sayPick(read.told, now)
  const reply = now.correcting
    ? await doEdits(
        `Put right: ${now.correcting.was}`,
        correctedPick(
          now.correcting,
          read.told,
          { on: on.value, reason: now.reason.trim(), was: now.correcting.was, now: words },
          newId,
        ),
      )
    : await doEdits(`Pick ${shortWords(read.told, now)}`, newPick(read.told, newId))
  if (!reply.ok) {
    faults.value = { [reply.fault.field === 'part' ? 'shares' : 'other']: reply.fault.detail }
    return
  }
  remember({
    picker: read.told.picker,
    shares: read.told.shares.length > 0 ? read.told.shares : readRemembered().shares,
  })
  batch(() => {
    const { place, byHand, carried, day } = now
    const more = now.correcting ? {} : { place, carried: byHand || carried, day }
    entry.value = { ...blankEntry(), ...more }
    faults.value = {}
    const where = now.place ? `, ${sayPlace(now.place).where}` : ''
    kept.value = { words: `${shortWords(read.told, now)}${where}`, step: history.value.undo }
  })
  keptMs = performance.now()
}

/** Takes the pick just kept back, at once. */
export async function undoKept(): Promise<void> {
  kept.value = null
  await undo()
}

function asTold(now: Entry): { readonly told: PickTold } | { readonly faults: EntryFaults } {
  const quantity = quantityOf(now.typed)
  const unit = unitTold.value
  const wrong: EntryFaults = {
    ...(now.place ? {} : { place: 'Say where: take one of these, or tap the map.' }),
    ...(quantity === null ? { quantity: 'Say how much.' } : {}),
    ...(unit ? {} : { unit: 'Say in what.' }),
    ...(leftOf(now.shares) < 0 ? { shares: 'The shares come to more than the pick.' } : {}),
    ...(now.shares.some(({ part }) => part <= 0) ? { shares: 'Somebody has no part of it.' } : {}),
    ...(now.correcting && now.reason.trim() === '' ? { reason: 'Say why it is put right.' } : {}),
  }
  if (Object.keys(wrong).length > 0 || !now.place || quantity === null || !unit) return { faults: wrong }
  const { picker, grade, shares } = now
  const note = now.note.trim() === '' ? null : now.note.trim()
  return {
    told: { on: pickDay.value, place: placeFields(now.place), quantity, unit: unit.unit, picker, grade, note, shares },
  }
}

const shortWords = ({ quantity, unit }: PickTold, { place }: Entry) =>
  `${quantity} ${unit}${cropNameOf(place) === null ? '' : ` of ${cropNameOf(place)}`}`

/** A pick in words, as the margin keeps it. */
export function sayPick(pick: PickTold, now: Entry): string {
  const { place } = now
  const where =
    place?.is === 'spot'
      ? `at ${place.at[1].toFixed(6)}, ${place.at[0].toFixed(6)}`
      : place
        ? `in ${sayPlace(place).where}`
        : ''
  return [
    `${shortWords(pick, now)} ${where} on ${pick.on}`,
    pick.picker === null ? '' : `picked by ${pick.picker}`,
    pick.grade ?? '',
    sayShares(pick.shares),
    pick.note ?? '',
  ]
    .filter((words) => words !== '')
    .join('; ')
}

/** The mass that the typed quantity comes to, in the person's unit; null where it is not known yet. */
export function massTold(typed: string, kg: number | null): Figure | null {
  const quantity = quantityOf(typed)
  return quantity === null || kg === null ? null : massFigure(quantity * kg, units.value)
}

/** What one of a unit weighs, in words: to the gram, or the hundredth of a pound. */
export function sayWeight(kg: number): string {
  return units.value === 'us' ? `${showNumber(kg / 0.45359237, 2)} lb` : told(weightFigure(kg))
}

const weightFigure = (kg: number): Figure => ({
  value: kg.toLocaleString(undefined, { maximumFractionDigits: kg < 1 ? 4 : 3 }),
  unit: 'kg',
})
