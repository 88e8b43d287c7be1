import { batch } from '@preact/signals'
import type { PickInFull, Reply } from '../../desk/door.ts'
import { choose } from '../state/chosen.ts'
import { ask } from '../state/door.ts'
import { newId } from '../state/newId.ts'
import { doEdits } from '../state/steps.ts'
import { on } from '../state/where.ts'
import { blankEntry, choices, type Entry, entry, faults, kept, startAnew } from './entry.ts'
import { sayPick } from './keepPick.ts'
import { struckOut } from './pickEdits.ts'
import { type PickPlace, placeFields } from './pickPlace.ts'

/** Why picks are put right or struck out, for a tap. */
export const REASONS = {
  changed: ['mistyped', 'wrong place', 'wrong day', 'weighed again', 'shared otherwise'],
  removed: ['told twice', 'wrong place', 'never picked'],
} as const

/** Opens a pick in the entry, to be put right; null when done, else what went wrong. */
export async function openToCorrect(id: string): Promise<string | null> {
  const reply = await ask('readPick', { id })
  if (!reply.ok) return reply.fault.detail
  const opened = entryOf(reply.value)
  batch(() => {
    entry.value = opened
    faults.value = {}
    kept.value = null
    choices.value = { by: 'table', places: opened.place ? [opened.place] : [] }
  })
  await choose(null)
  return null
}

/** Leaves the pick as it was. */
export const dropCorrection = startAnew

/** Strikes a pick out, the reason kept; as one step, which undo takes back. */
export async function strikeOut(id: string, reason: string): Promise<Reply<unknown>> {
  const reply = await ask('readPick', { id })
  if (!reply.ok) return reply
  const { correcting } = entryOf(reply.value)
  if (!correcting) throw new Error(`pick ${id} was not read`)
  return doEdits(
    `Strike out ${correcting.was}`,
    struckOut(correcting, { on: on.value, reason, was: correcting.was, now: null }, newId),
  )
}

function entryOf({ pick, shares, planting, bedName }: PickInFull): Entry {
  const place: PickPlace | null = planting
    ? { is: 'planting', planting, distanceM: null }
    : pick.bed !== null
      ? { is: 'bed', bed: { id: pick.bed, name: bedName ?? pick.bed } }
      : pick.lon !== null && pick.lat !== null
        ? { is: 'spot', at: [pick.lon, pick.lat] }
        : null
  if (!place) throw new Error(`pick ${pick.id} lies nowhere`)
  const lines = shares.map(({ to, part, use }) => ({ to, part, use }))
  const { quantity, unit, picker, grade, note, on: day } = pick
  const told: Entry = {
    ...blankEntry(),
    place,
    byHand: true,
    carried: false,
    typed: String(quantity),
    unit,
    day,
    picker,
    grade,
    note: note ?? '',
    shares: lines,
  }
  const was = sayPick({ on: day, place: placeFields(place), quantity, unit, picker, grade, note, shares: lines }, told)
  return { ...told, correcting: { pick, shares, was } }
}
