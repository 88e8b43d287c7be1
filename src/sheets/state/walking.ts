import { batch, signal } from '@preact/signals'
import type { WalkEvent } from '../../../geo/track/fix.ts'
import { keepAwake } from '../ground/walk/keepAwake.ts'
import { openTrackStore } from '../ground/walk/trackStore.ts'
import { chosen } from './chosen.ts'
import { dropPending, layDown } from './drawing.ts'
import { openFarm } from './farm.ts'
import { stopLaying } from './laying.ts'
import { farmMap } from './mapHandle.ts'
import { showPane } from './pane.ts'

/** What is walked, or was: `file` names the track file that it was read from. */
export interface Walking {
  readonly events: readonly WalkEvent[]
  readonly recording: boolean
  readonly file: string | null
  /** Positions of a file's track that would be left out are taken all the same. */
  readonly takeAll: boolean
}

export const walking = signal<Walking | null>(null)
/** Why no position comes, where none does. */
export const walkFault = signal<string | null>(null)
/** When the last position came, by the page's clock. */
export const lastFixMs = signal<number | null>(null)
/** Whether the screen is kept on while a walk is recorded. */
export const screenKept = signal(false)

const store = openTrackStore()
let stopWatching: (() => void) | null = null
let keeping: Promise<void> = Promise.resolve()

/** Opens the walk: the one that is kept from before, if there is one. */
export async function openWalk(): Promise<void> {
  layDown()
  dropPending()
  stopLaying()
  batch(() => {
    walking.value = { events: [], recording: false, file: null, takeAll: false }
    walkFault.value = null
  })
  showPane('card')
  try {
    await keeping
    const events = await store.read(farmId())
    if (walking.value && walking.value.file === null) walking.value = { ...walking.value, events }
  } catch (error) {
    walkFault.value = `A walk kept before could not be read. ${(error as Error).message}`
  }
}

/** Shuts the walk; what was walked stays kept until it is thrown away or has become a record. */
export function closeWalk(): void {
  pauseWalk()
  walking.value = null
  void farmMap.value?.setProposed(null)
  if (!chosen.value) showPane('map')
}

/** Records positions from now on. */
export function recordWalk(): void {
  if (!walking.value || stopWatching) return
  if (!('geolocation' in navigator)) {
    walkFault.value = 'This device tells no position.'
    return
  }
  walkFault.value = null
  const letSleep = keepAwake((on) => {
    screenKept.value = on
  })
  const watch = navigator.geolocation.watchPosition(
    ({ coords: { longitude, latitude, accuracy }, timestamp }) => {
      walkFault.value = null
      lastFixMs.value = performance.now()
      void does({ does: 'fix', lon: longitude, lat: latitude, accuracyM: accuracy, atMs: timestamp })
    },
    ({ code, message }) => {
      walkFault.value = FAULTS[code] ?? `The device does not tell its position. ${message}`
      if (code === DENIED) pauseWalk()
    },
    { enableHighAccuracy: true, maximumAge: 0, timeout: 20_000 },
  )
  stopWatching = () => {
    navigator.geolocation.clearWatch(watch)
    letSleep()
  }
  walking.value = { ...walking.value, recording: true, file: null, takeAll: false }
}

const DENIED = 1
const FAULTS: Readonly<Record<number, string>> = {
  [DENIED]: 'This page may not ask for the position: allow it for this site in the browser, then start again.',
  2: 'The device can’t find its position just now. It goes on trying.',
  3: 'No position for 20 seconds. It goes on trying; open sky helps.',
}

export function pauseWalk(): void {
  stopWatching?.()
  stopWatching = null
  lastFixMs.value = null
  if (walking.value?.recording) walking.value = { ...walking.value, recording: false }
}

/** Keeps what is done, one after another, and then adds it to the walk that is shown: what is told of is kept. */
export function does(event: WalkEvent): Promise<void> {
  const file = walking.value?.file
  if (file === undefined) return keeping
  keeping = keeping.then(async () => {
    if (file === null)
      try {
        await store.append(farmId(), event)
      } catch (error) {
        walkFault.value = `The walk goes on, but is not being kept: closing the page would lose it. ${(error as Error).message}`
      }
    const now = walking.value
    if (now && now.file === file) walking.value = { ...now, events: [...now.events, event] }
  })
  return keeping
}

/** Takes a track that was walked before, out of a file. */
export function takeTrack(file: string, events: readonly WalkEvent[]): void {
  pauseWalk()
  walking.value = { events, recording: false, file, takeAll: false }
}

/** Takes all positions of a track from a file, or leaves out again those that lie far off. */
export function takeAll(all: boolean): void {
  if (walking.value && walking.value.file !== null) walking.value = { ...walking.value, takeAll: all }
}

/** Throws the walk away: the kept one, or the one read from a file. */
export async function throwWalkAway(): Promise<void> {
  const file = walking.value?.file ?? null
  pauseWalk()
  await keeping
  if (file === null) await store.clear(farmId()).catch(() => undefined)
  if (walking.value) walking.value = { events: [], recording: false, file: null, takeAll: false }
  if (file !== null) await openWalk()
}

const farmId = () => openFarm.value?.entry.id ?? ''
