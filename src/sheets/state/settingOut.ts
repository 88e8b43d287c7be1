import { batch, signal } from '@preact/signals'
import type { Planting } from '../../../geo/model/plantings.ts'
import type { BedHistory, Lane } from '../../desk/door.ts'
import { type Draft, draftOf, inStep, rowText, spacingText } from '../growing/draft.ts'
import { choose } from './chosen.ts'
import { askCrops, crops, varieties } from './crops.ts'
import { ask } from './door.ts'
import { dropPending, layDown } from './drawing.ts'
import { units } from './farm.ts'
import { laying, stopLaying } from './laying.ts'
import { newId } from './newId.ts'
import { showPane } from './pane.ts'
import { bedOfRow } from './plantings.ts'
import { on } from './where.ts'

/** Plantings being set out or moved in one bed, the one in hand at `active`. */
export interface SettingOut {
  readonly label: string
  readonly bed: string | null
  readonly history: BedHistory | null
  readonly drafts: readonly Draft[]
  readonly active: number
}

export const settingOut = signal<SettingOut | null>(null)

export const laneOf = (history: BedHistory | null, row: string | null): Lane | undefined =>
  history?.lanes.find((lane) => lane.row === row)

/** Begins to set something out: in a row, in a bed, or where is still to be told. */
export function setOut(where: { readonly bed: string; readonly row: string | null } | null): void {
  begin('Set out', [emptyDraft(on.value)])
  if (where) void putInBed(where.bed, where.row)
}

/** Takes a planting up, to stand elsewhere or otherwise. */
export function movePlanting(planting: Planting, name: string): void {
  begin(`Move ${name}`, [draftOf(planting, units.value)])
  const bed = planting.bed ?? (planting.row === null ? undefined : bedOfRow.value.get(planting.row))
  if (bed !== undefined) void lookAt(bed)
}

/** Begins what follows a planting in its stretch, from the day that it is cleared. */
export function followPlanting(planting: Planting, name: string): void {
  const first = draftOf(planting, units.value)
  begin(`Set out after ${name}`, [
    { ...emptyDraft(planting.cleared ?? on.value), row: first.row, from: first.from, to: first.to },
  ])
  const bed = planting.bed ?? (planting.row === null ? undefined : bedOfRow.value.get(planting.row))
  if (bed !== undefined) void lookAt(bed)
}

function begin(label: string, drafts: readonly Draft[]): void {
  layDown()
  dropPending()
  if (laying.value) stopLaying()
  settingOut.value = { label, bed: null, history: null, drafts, active: 0 }
  if (crops.value === null) void askCrops()
  showPane('card')
}

/** Shuts the form; what it held is gone. */
export function giveUpSettingOut(): void {
  settingOut.value = null
  showPane('map')
}

/** What was set out is kept: shows the card of the first of it. */
export function settingOutKept(first: string): void {
  settingOut.value = null
  void choose({ kind: 'plantings', id: first })
}

function emptyDraft(day: string): Draft {
  return {
    id: newId(),
    kept: null,
    variety: '',
    fresh: null,
    row: null,
    from: '',
    to: '',
    spacing: '',
    plants: '',
    follows: 'plants',
    setOut: day,
    cleared: '',
  }
}

/** Reads what stands in a bed, so that rows can be chosen and what stood there is told. */
async function lookAt(bed: string): Promise<BedHistory | null> {
  const now = settingOut.value
  if (!now) return null
  settingOut.value = { ...now, bed, history: null }
  const reply = await ask('bedHistory', { bed })
  const after = settingOut.value
  if (!reply.ok || after?.bed !== bed) return null
  settingOut.value = { ...after, history: reply.value }
  return reply.value
}

/** Puts the draft in hand in a bed: in the row told, else in the first that is free on its day; the whole of it. */
export async function putInBed(bed: string, row: string | null): Promise<void> {
  const history =
    settingOut.value?.bed === bed && settingOut.value.history ? settingOut.value.history : await lookAt(bed)
  const now = settingOut.value
  if (!history || !now) return
  const others = now.drafts.filter((_, i) => i !== now.active).map((draft) => draft.row)
  const lane = row === null ? freeLane(history, now.drafts[now.active]!.setOut, others) : laneOf(history, row)
  if (lane) putInLane(lane)
}

/** The whole of a row for the draft in hand. */
export function putInLane(lane: Lane): void {
  change({ row: lane.row, from: '0', to: rowText(lane.lengthM, units.value) })
}

/** The first row of a bed in which nothing stands on a day and nothing is being set out; else its first. */
function freeLane(history: BedHistory, day: string, taken: readonly (string | null)[]): Lane | undefined {
  const standing = new Set(
    history.stood
      .filter(({ setOut, cleared }) => setOut <= day && (cleared === null || cleared > day))
      .map(({ row }) => row),
  )
  const rows = history.lanes.filter(({ row }) => row !== null)
  return (
    rows.find(({ row }) => !standing.has(row) && !taken.includes(row)) ??
    rows.find(({ row }) => !taken.includes(row)) ??
    history.lanes[0]
  )
}

/** Changes what is typed of the draft in hand; spacing and plants are kept in step. */
export function change(patch: Partial<Draft>): void {
  const now = settingOut.value
  if (!now) return
  const drafts = now.drafts.map((draft, i) => {
    if (i !== now.active) return draft
    const after = { ...draft, ...patch }
    return inStep(after, laneOf(now.history, after.row), units.value)
  })
  settingOut.value = { ...now, drafts }
}

/** Chooses a variety; a new planting takes the crop's usual spacing with it. */
export function chooseVariety(id: string): void {
  const crop = crops.value?.find((one) => one.id === varieties.value.find((variety) => variety.id === id)?.crop)
  const usual = crop?.usual_spacing_m
  change({
    variety: id,
    fresh: null,
    ...(usual && { spacing: spacingText(usual, units.value), follows: 'plants' as const }),
  })
}

export function takeInHand(active: number): void {
  if (settingOut.value) settingOut.value = { ...settingOut.value, active }
}

export function dropDraft(at: number): void {
  const now = settingOut.value
  if (!now) return
  settingOut.value = { ...now, drafts: now.drafts.filter((_, i) => i !== at), active: Math.max(0, at - 1) }
}

/** Another planting beside the one in hand, on a row that is free, with its days. */
export function anotherBeside(): void {
  const now = settingOut.value
  const beside = now?.drafts[now.active]
  if (!now?.history || !beside) return
  const lane = freeLane(
    now.history,
    beside.setOut,
    now.drafts.map(({ row }) => row),
  )
  addDraft({ ...emptyDraft(beside.setOut), cleared: beside.cleared })
  if (lane) putInLane(lane)
}

/** Another planting in the same stretch, from so many days after the one in hand is cleared. */
export function anotherAfter(setOutOn: string): void {
  const now = settingOut.value
  const before = now?.drafts[now.active]
  if (!before) return
  addDraft({ ...emptyDraft(setOutOn), row: before.row, from: before.from, to: before.to })
}

function addDraft(draft: Draft): void {
  const now = settingOut.value
  if (!now) return
  batch(() => {
    settingOut.value = { ...now, drafts: [...now.drafts, draft], active: now.drafts.length }
  })
}
