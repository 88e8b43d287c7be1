import { batch } from '@preact/signals'
import type { Ask, OpenFarm, Reply } from '../../desk/door.ts'
import { addDays } from '../show/days.ts'
import { choose } from './chosen.ts'
import { ask } from './door.ts'
import {
  archiveAtFault,
  copyMs,
  farms,
  history,
  notices,
  openFarm,
  openingFault,
  openingWhat,
  phase,
  progress,
  stopOpening,
} from './farm.ts'
import { leaveFarm } from './leaving.ts'
import { showDayOfFarm } from './shown.ts'
import { askWeeks } from './weeks.ts'
import { on, takeAddress, today, view } from './where.ts'

/** The farm opened last in this browser, as far as is known before the desk has answered: its id, and after a space its name. */
const LAST_FARM = 'selion.farm'

export function lastFarm(): { readonly id: string; readonly name: string } | null {
  const [, id, name] = /^(\S+) (.+)$/.exec(localStorage.getItem(LAST_FARM) ?? '') ?? []
  return id && name ? { id, name } : null
}

const rememberLast = ({ id, name }: { readonly id: string; readonly name: string }): void =>
  localStorage.setItem(LAST_FARM, `${id} ${name}`)

/** Shows the start card, with the farms that are kept on this device. */
export async function chooseFarm(): Promise<void> {
  phase.value = 'choosing'
  const reply = await ask('listFarms', {})
  if (reply.ok) farms.value = reply.value
  else openingFault.value = { fault: reply.fault, entry: null }
}

/**
 * Opens the farm that was opened last, as the desk tells: a browser takes its time to keep what its local storage was
 * told, so that `hint` may be older where it was ended at once.
 */
export async function openLatest(hint: { readonly id: string; readonly name: string }): Promise<void> {
  phase.value = 'opening'
  openingWhat.value = hint.name
  const reply = await ask('listFarms', {})
  const latest = (reply.ok && reply.value[0]) || hint
  // The address is of that farm too.
  rememberLast(latest)
  await openKept(latest)
}

export const openDemo = () => opening('the demo farm', (signal) => ask('makeDemo', {}, { signal }))

/** Opens a farm that is kept here; where that can't be done, the start card says why. */
export const openKept = ({ id, name }: { readonly id: string; readonly name: string }, takeOver = false) =>
  opening(name, () => ask('openFarm', { id, takeOver }), { id, name })

export const makeFarm = (wanted: Ask<'makeFarm'>) =>
  opening(wanted.name, (signal) => ask('makeFarm', wanted, { signal }))

/** Brings an archive in as a farm of its own; `partial` takes what is sound and leaves the rest out. */
export async function bringArchive(name: string, bytes: Uint8Array, partial: boolean): Promise<void> {
  archiveAtFault.value = null
  const reply = await opening(name, (signal) => ask('bringArchive', { name, bytes, partial }, { signal }))
  if (!reply.ok && reply.fault.kind === 'archive' && !partial) archiveAtFault.value = { name, bytes }
}

export async function forgetFarm(id: string): Promise<void> {
  const reply = await ask('forgetFarm', { id })
  if (!reply.ok) openingFault.value = { fault: reply.fault, entry: null }
  if (lastFarm()?.id === id) localStorage.removeItem(LAST_FARM)
  await chooseFarm()
}

/** Opens a farm that is kept (`entry`), or one that is made or brought in, which can be stopped. */
async function opening(
  what: string,
  open: (signal: AbortSignal) => Promise<Reply<OpenFarm>>,
  entry: { readonly id: string; readonly name: string } | null = null,
): Promise<Reply<OpenFarm>> {
  const stop = new AbortController()
  batch(() => {
    phase.value = 'opening'
    openingWhat.value = what
    openingFault.value = null
    progress.value = null
    stopOpening.value = entry === null ? () => stop.abort() : null
  })
  const reply = await open(stop.signal)
  stopOpening.value = null
  if (reply.ok) await enter(reply.value)
  else {
    if (reply.fault.kind !== 'stopped') openingFault.value = { fault: reply.fault, entry }
    await chooseFarm()
  }
  return reply
}

/** Everything on the page now speaks of this farm. */
async function enter(opened: OpenFarm): Promise<void> {
  const before = openFarm.value?.entry ?? lastFarm()
  rememberLast(opened.entry)
  leaveFarm()
  void choose(null)
  // What the address says of day and place is of the farm that was looked at before.
  const another = before !== null && before.id !== opened.entry.id
  if (another) view.value = null
  if (another || !takeAddress().day) on.value = await firstDay(opened)
  // Asked before the plan is laid out, so that the desk answers meanwhile.
  void showDayOfFarm(on.value)
  batch(() => {
    openFarm.value = opened
    history.value = opened.history
    notices.value = opened.notices
    copyMs.value = null
    phase.value = 'open'
  })
}

/** Today; but the demo farm is shown in the week that most was picked in, so that there is something to see on it. */
async function firstDay(opened: OpenFarm): Promise<string> {
  if (!opened.entry.invented) return today.value
  for (const season of [...opened.seasons].reverse()) {
    const weeks = await askWeeks(season)
    const fullest = weeks.reduce((most, week) => (week.kg > most.kg ? week : most), { from: '', kg: 0, picks: 0 })
    if (fullest.kg > 0) return addDays(fullest.from, 3)
  }
  return today.value
}
