import { batch, signal } from '@preact/signals'
import type { Answer, Ask, Changed, DeskFault, Reply } from '../../desk/door.ts'
import { painted } from '../../map/painted.ts'
import { askCard } from './chosen.ts'
import { askCrops } from './crops.ts'
import { ask } from './door.ts'
import { history, openFarm } from './farm.ts'
import { runsAreStale } from './freshRuns.ts'
import { askPhotoRoom } from './largePhotos.ts'
import { keepAtLength } from './longStep.ts'
import { askPhotos } from './photos.ts'
import { pickingIsStale } from './picking.ts'
import { askPlantings } from './plantings.ts'
import { takeChanged } from './shown.ts'
import { sitingIsStale } from './siting.ts'
import { askStock } from './stock.ts'
import { supportsAreStale } from './supports.ts'
import { askSystems } from './systems.ts'
import { samenessOf, unlessUnderWay } from './unlessUnderWay.ts'
import { warningsAfter } from './warnings.ts'
import { weeksAreStale } from './weeks.ts'
import { on } from './where.ts'
import { yieldIsStale } from './yields.ts'

export type Edits = Ask<'edit'>['edits']

/** What was done last, told to those who can't see the map change. */
export const said = signal('')
/** A fault of undo or redo, shown beside the buttons. */
export const stepFault = signal<DeskFault | null>(null)

/** Does a person's edits as one step, and takes in what it changed; asked twice at once, as by a double tap, once. */
export async function doEdits(label: string, edits: Edits): Promise<Reply<Answer<'edit'>>> {
  return unlessUnderWay(samenessOf(label, edits), async () => {
    const reply = await keepAtLength(label, (signal) => ask('edit', { label, edits, on: on.value }, { signal }))
    if (reply.ok) takeStep(reply.value, label)
    return reply
  })
}

/** Removes records with all that stands on them. */
export async function removeRecords(things: Ask<'remove'>['things'], label: string): Promise<Reply<Answer<'remove'>>> {
  return unlessUnderWay(JSON.stringify([label, things]), async () => {
    const reply = await keepAtLength(label, (signal) => ask('remove', { things, label, on: on.value }, { signal }))
    if (reply.ok) takeStep(reply.value, label)
    return reply
  })
}

export const removeRecord = (kind: string, id: string, label: string) => removeRecords([{ kind, id }], label)

export const undo = () => takeBack('undo')
export const redo = () => takeBack('redo')

async function takeBack(which: 'undo' | 'redo'): Promise<void> {
  const label = history.value[which] ?? ''
  const what = which === 'undo' ? `Taking back: ${label}` : `Doing again: ${label}`
  const reply = await keepAtLength(what, (signal) => ask(which, { on: on.value }, { signal }))
  stepFault.value = reply.ok ? null : reply.fault
  if (!reply.ok || reply.value === null) return
  takeStep(reply.value, which === 'undo' ? `Taken back: ${reply.value.label}` : `Done again: ${reply.value.label}`)
}

/** Kinds whose changes can change what runs stand, or where they are counted. */
const MOVE_RUNS = ['supports', 'systems', 'beds', 'fields']

/** Kinds whose changes can change what is told of picking, or offered for it. */
const MOVE_PICKING = ['picks', 'shares', 'containers', 'plantings', 'varieties', 'crops', 'beds', 'rows', 'fields']

let toldAnew: Promise<void> = Promise.resolve()

/** Resolves when the card that was open at the last step is told anew. */
export const cardTold = (): Promise<void> => toldAnew

/**
 * Takes in a step that the desk did: what it told is shown, and what else may have changed is asked for behind that. Whoever
 * asked for the step goes on at once, so that nothing it does comes after what the person does next.
 */
export function takeStep(changed: Changed, words: string): void {
  batch(() => {
    takeChanged(changed)
    history.value = changed.history
    if (changed.farm && openFarm.value) openFarm.value = { ...openFarm.value, ...changed.farm }
    stepFault.value = null
    said.value = words
  })
  const kinds = new Set(changed.records.map(({ kind }) => kind))
  if (kinds.has('picks')) weeksAreStale()
  if (MOVE_PICKING.some((kind) => kinds.has(kind))) pickingIsStale()
  if (kinds.has('crops') || kinds.has('varieties')) void askCrops()
  if (kinds.has('stock_lots') || kinds.has('stock_moves')) void askStock()
  if (kinds.has('photos')) void askPhotos().then(askPhotoRoom)
  if (kinds.has('systems')) void askSystems()
  yieldIsStale()
  supportsAreStale()
  sitingIsStale()
  toldAnew = painted().then(() => askAfter(changed, kinds))
}

async function askAfter(changed: Changed, kinds: ReadonlySet<string>): Promise<void> {
  // What stands in sight first: the desk answers one after another.
  await askCard()
  void askUnseen(changed, kinds)
}

async function askUnseen(changed: Changed, kinds: ReadonlySet<string>): Promise<void> {
  if (MOVE_RUNS.some((kind) => kinds.has(kind))) await runsAreStale()
  if (kinds.has('plantings')) void askPlantings()
  void warningsAfter(changed)
}
