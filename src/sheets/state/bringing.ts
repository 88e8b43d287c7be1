import { effect, signal } from '@preact/signals'
import type {
  AskedPlan,
  BringAsked,
  BringPreview,
  DeskFault,
  Fault,
  FileLook,
  FoundInFile,
  PlaceChoice,
} from '../../desk/door.ts'
import { showCount } from '../show/figures.ts'
import { closeCard } from './chosen.ts'
import { ask } from './door.ts'
import { openFarm } from './farm.ts'
import { latest } from './latest.ts'
import { keepAtLength } from './longStep.ts'
import { farmMap } from './mapHandle.ts'
import { makeFarm } from './opening.ts'
import { showPane } from './pane.ts'
import { takeStep } from './steps.ts'
import { on } from './where.ts'

/** How a person says that a file's coordinates are to be read; null: as the file says. */
export interface ReadAs {
  readonly grid: string | null
  readonly columns: PlaceChoice | null
}

/** A file of another program that is being brought in, and how far that is. */
export interface Bringing extends BringAsked {
  readonly files: readonly File[]
  readonly readAs: ReadAs
  readonly look: FileLook
}

export const bringing = signal<Bringing | null>(null)
export const preview = signal<BringPreview | null>(null)
export const bringFault = signal<DeskFault | null>(null)
/** What is being read, in words, or null. */
export const bringBusy = signal<string | null>(null)
/** True while what was found is being kept. */
export const keepingBrought = signal(false)
/** What was kept, and what was left out, until it has been read. */
export const brought = signal<{ readonly words: string; readonly leftOut: readonly Fault[] } | null>(null)
/** True while the table's place is that of bringing in. */
export const isBringing = () =>
  bringing.value !== null || bringBusy.value !== null || bringFault.value !== null || brought.value !== null

/** Stops the reading of a file. */
let stop: AbortController | null = null

const AS_IT_SAYS: ReadAs = { grid: null, columns: null }

/** Looks into files that were chosen or dropped, for the farm that is open. The card gives its room to them. */
export async function startBringing(files: readonly File[]): Promise<void> {
  if (files.length === 0) return
  closeCard()
  const look = await lookInto(files, AS_IT_SAYS)
  if (!look) return
  const plans = look.layers.map(({ plan }) => plan)
  await planFor({ files, readAs: AS_IT_SAYS, look, plans, replaces: false, acceptsOutside: false })
}

async function planFor(now: Bringing): Promise<void> {
  bringing.value = now
  showPane('table')
  await seePreview()
  fitPreview()
}

/** A farm of its own that begins with a file: it lies where the file's things lie. */
export async function beginFrom(files: readonly File[]): Promise<void> {
  const look = await lookInto(files, AS_IT_SAYS)
  if (!look) return
  const name = look.fileName.replace(/\.[^./]*$/, '').replace(/_/g, ' ')
  const timezone = Intl.DateTimeFormat().resolvedOptions().timeZone ?? null
  await makeFarm({ name, units: 'metric', currency: null, timezone, origin: look.middle })
  if (openFarm.value) await startBringing(files)
}

async function lookInto(files: readonly File[], readAs: ReadAs): Promise<FileLook | null> {
  stop?.abort()
  stop = new AbortController()
  bringFault.value = null
  brought.value = null
  bringBusy.value = `Reading ${files[0]!.name}`
  const read = await Promise.all(
    files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  )
  const reply = await ask('lookIntoFile', { files: read, ...readAs }, { signal: stop.signal })
  bringBusy.value = null
  if (reply.ok) return reply.value
  if (reply.fault.kind !== 'stopped') bringFault.value = reply.fault
  showPane('table')
  return null
}

export const stopReading = () => stop?.abort()

/** Changes what one layer is to be, and shows what comes of it. */
export function planLayer(index: number, plan: BringAsked['plans'][number]): void {
  const now = bringing.value
  if (!now) return
  bringing.value = { ...now, plans: now.plans.map((one, i) => (i === index ? plan : one)) }
  void seePreview()
}

/** Changes what is taken of the file, and shows what comes of it. */
export function takeOtherwise(to: Partial<Pick<BringAsked, 'replaces' | 'acceptsOutside'>>): void {
  if (!bringing.value) return
  bringing.value = { ...bringing.value, ...to }
  void seePreview()
}

/** Reads the same file once more as the person says; what was said of its layers stays, as far as they are the same. */
export async function readAgain(readAs: ReadAs): Promise<void> {
  const before = bringing.value
  if (!before || bringBusy.value !== null) return
  const look = await lookInto(before.files, readAs)
  if (!look || !bringing.value) return
  await planFor({ ...bringing.value, readAs, look, plans: look.layers.map((layer, i) => planAgain(before, layer, i)) })
}

function planAgain({ look, plans }: Bringing, layer: FoundInFile, i: number): AskedPlan {
  const said = plans[i]
  if (!said || said.kind === null || look.layers[i]?.name !== layer.name || !layer.kinds.includes(said.kind))
    return layer.plan
  const there = new Set(layer.columns.map(({ name }) => name))
  const columns = said.columns && Object.entries(said.columns).filter(([, column]) => there.has(column))
  return { ...said, columns: columns && Object.fromEntries(columns) }
}

/** What is asked for, with what was typed as it is meant: without spaces around it. */
function askedOf({ plans, replaces, acceptsOutside }: Bringing): BringAsked {
  const meant = (plan: AskedPlan) => {
    const typed = Object.entries(plan.constants).map(([field, value]) => [field, value.trim()] as const)
    return { ...plan, constants: Object.fromEntries(typed.filter(([, value]) => value !== '')) }
  }
  return { plans: plans.map(meant), replaces, acceptsOutside }
}

const askPreview = latest(async (now: Bringing) => {
  const reply = await ask('seeBringing', askedOf(now))
  if (!bringing.value) return
  if (!reply.ok) {
    bringFault.value = reply.fault
    return
  }
  bringFault.value = null
  preview.value = reply.value
  // Columns are guessed for a layer that has none yet; what was changed since it was asked for stays as it is now.
  const guessed = (plan: AskedPlan, i: number) =>
    plan === now.plans[i] && plan.columns === null ? reply.value.plans[i]! : plan
  bringing.value = { ...bringing.value, plans: bringing.value.plans.map(guessed) }
  await farmMap.value?.setBrought(reply.value.shapes)
})

async function seePreview(): Promise<void> {
  if (bringing.value) await askPreview(bringing.value)
}

/** Brings all that would be kept into view; the map of a farm just made may still be on its way. */
function fitPreview(): void {
  const seen = preview.value
  const bounds = boundsOfShapes(Object.values(seen?.shapes ?? {}).flat())
  const waiting = effect(() => {
    const map = farmMap.value
    if (!map) return
    if (bringing.peek() && bounds) {
      void map.setBrought(seen?.shapes ?? null)
      map.fitTo(bounds)
    }
    queueMicrotask(() => waiting())
  })
}

function boundsOfShapes(shapes: readonly unknown[]) {
  const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity }
  const grow = (part: unknown): void => {
    if (!Array.isArray(part)) return
    const [lon, lat] = part as unknown[]
    if (typeof lon !== 'number' || typeof lat !== 'number') {
      for (const inner of part as unknown[]) grow(inner)
      return
    }
    box.west = Math.min(box.west, lon)
    box.east = Math.max(box.east, lon)
    box.south = Math.min(box.south, lat)
    box.north = Math.max(box.north, lat)
  }
  for (const shape of shapes) grow((shape as { coordinates?: unknown }).coordinates)
  if (box.west > box.east) return null
  return { southWest: [box.west, box.south] as const, northEast: [box.east, box.north] as const }
}

export function giveUpBringing(): void {
  stop?.abort()
  bringing.value = null
  preview.value = null
  bringFault.value = null
  bringBusy.value = null
  brought.value = null
  void farmMap.value?.setBrought(null)
}

/** Keeps what can be kept, as one step. */
export async function keepBrought(): Promise<void> {
  const now = bringing.value
  if (!now || bringBusy.value !== null || keepingBrought.value) return
  keepingBrought.value = true
  const label = `Bring in ${now.look.fileName}`
  const reply = await keepAtLength(label, (signal) =>
    ask('bringIn', { ...askedOf(now), label, on: on.value }, { signal }),
  )
  keepingBrought.value = false
  if (!reply.ok) {
    bringFault.value = reply.fault
    return
  }
  const count = reply.value.changed.records.filter(({ kind }) => kind !== 'farm').length
  takeStep(reply.value.changed, label)
  const notes = [...now.look.notes, ...reply.value.leftOut]
  giveUpBringing()
  brought.value = {
    words: `${showCount(count)} ${count === 1 ? 'record is' : 'records are'} kept from ${now.look.fileName}.`,
    leftOut: notes,
  }
}
