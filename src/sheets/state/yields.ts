import { computed, signal } from '@preact/signals'
import type { Answer, DeskFault, PointMethod, YieldGroundAsked } from '../../desk/door.ts'
import type { YieldShown } from '../yield/rampOf.ts'
import { ask, type Yielded } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

export const yieldShown = signal<YieldShown>('index')

/** Standard deviation of the smoothing, in metres. */
export const smoothM = signal(1.5)

/** More ground than this is shown on cells twice as wide: on a metre's it would be slow to recolour, and no finer to the eye. */
const WIDE_M2 = 40_000

/** Side of the surface's cells, in metres, for so much growing ground. */
export const cellFor = (areaM2: number): number => (areaM2 > WIDE_M2 ? 2 : 1)

export const yielded = signal<Yielded | null>(null)
export const yieldFault = signal<DeskFault | null>(null)
export const yieldBusy = signal(false)
/** Counts up when a step may have changed what was reckoned. */
export const yieldStale = signal(0)
export const chosenZone = signal<string | null>(null)
export const zoneChosen = computed(() => yielded.value?.zones.find(({ id }) => id === chosenZone.value) ?? null)

/** What is asked of the surface; `step` counts the steps that may have changed it. */
export interface AskedSurface {
  readonly ground: YieldGroundAsked
  readonly cellM: number
  readonly step: number
}

/** Reckons yield; of many asked in haste the last is shown. */
export const askYield = latest(async ({ ground, cellM }: AskedSurface) => {
  yieldBusy.value = true
  const reply = await ask('yield', { ...ground, cellM, smoothM: smoothM.peek() })
  yieldBusy.value = false
  yieldFault.value = reply.ok ? null : reply.fault
  yielded.value = reply.ok ? reply.value : null
})

/** The surface's cells smoothed anew, of the yield that it was asked for. */
const smoothed = signal<{ readonly of: Yielded; readonly is: Answer<'yieldSmooth'> } | null>(null)

/** Smooths the surface shown anew; nothing else is reckoned. */
export const askSmooth = latest(async (asked: { readonly of: Yielded; readonly smoothM: number }) => {
  const { season, seasons, of, cellM } = asked.of
  const reply = await ask('yieldSmooth', { season, seasons, of, cellM, smoothM: asked.smoothM })
  if (reply.ok) smoothed.value = { of: asked.of, is: reply.value }
  else yieldFault.value = reply.fault
})

/** How far the surface is smoothed that is shown now. */
export const smoothShownM = computed(() =>
  smoothed.value?.of === yielded.value ? smoothed.value?.is.smoothM : yielded.value?.smoothM,
)

/** kg and index (NaN where nothing was expected) of the surface's cells, in their order, as smoothed now. */
export const cellYields = computed<{ readonly kg: Float64Array; readonly index: Float64Array }>(() => {
  const of = yielded.value
  if (of && smoothed.value?.of === of) return smoothed.value.is
  const cells = of?.cells ?? []
  return {
    kg: Float64Array.from(cells, ({ properties }) => properties.kg),
    index: Float64Array.from(cells, ({ properties }) => properties.index ?? Number.NaN),
  }
})

/** How the index is told between the middles of stretches, and whether it or its standard error is shown. */
export const pointMethod = signal<PointMethod>('kriging')
export const pointsShow = signal<'value' | 'error'>('value')

export const yieldPoints = signal<Answer<'yieldPoints'> | null>(null)
let pointsStand = ''
/** What stops the reckoning of it that is under way. */
export const pointsUnderWay = signal<AbortController | null>(null)

export type AskedPoints = AskedSurface & { readonly method: PointMethod }

/** Reckons the index between middles of stretches, unless it stands already; of what is under way nothing stays. */
export function askYieldPoints(asked: AskedPoints): Promise<void> {
  stopYieldPoints()
  return reckonPoints(asked)
}

export const stopYieldPoints = (): void => pointsUnderWay.peek()?.abort()

const reckonPoints = latest(async ({ ground, cellM, step, method }: AskedPoints) => {
  const of = JSON.stringify([ground, cellM, step, method])
  if (pointsStand === of) return
  yieldPoints.value = null
  pointsStand = ''
  const stop = new AbortController()
  pointsUnderWay.value = stop
  const reply = await ask('yieldPoints', { ...ground, cellM, method }, stop)
  pointsUnderWay.value = null
  if (!reply.ok && reply.fault.kind === 'stopped') return
  yieldFault.value = reply.ok ? null : reply.fault
  if (!reply.ok) return
  yieldPoints.value = reply.value
  pointsStand = of
})

export function yieldIsStale(): void {
  yieldStale.value += 1
}

whenFarmLeft(() => {
  stopYieldPoints()
  yielded.value = null
  yieldFault.value = null
  chosenZone.value = null
  smoothed.value = null
  yieldPoints.value = null
  pointsStand = ''
})
