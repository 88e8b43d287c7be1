import { signal } from '@preact/signals'
import type { BedShade, CanopyYears, DeskFault, FarmCasters } from '../../desk/door.ts'
import { monthsBetween } from '../siting/monthsBetween.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

/** What the Siting sheet shows. */
export type SitingShown = 'plan' | 'shadows' | 'lost' | 'canopies'
export const sitingShown = signal<SitingShown>('plan')
export const sitingFault = signal<DeskFault | null>(null)
/** Counts up when a step may have changed what was told. */
export const sitingStale = signal(0)

/** What throws shadows on a day. */
export const casters = signal<{ readonly on: string; readonly told: FarmCasters } | null>(null)
/** The time of day shown, in minutes after the middle of the day's light. */
export const afterNoonMin = signal(0)

export const canopies = signal<CanopyYears | null>(null)
/** Years after the day shown that canopies are drawn for, and that are looked ahead. */
export const yearsOn = signal(10)
export const AHEAD_YEARS = 30

/** Hours of direct sun that beds lose between two days. */
export interface SunLost {
  readonly from: string
  readonly to: string
  readonly sunHours: number
  readonly beds: readonly BedShade[]
}
export const sunLost = signal<SunLost | null>(null)
/** True once a step may have changed it since. */
export const sunLostStale = signal(false)
export const losing = signal<{ readonly done: number; readonly of: number } | null>(null)

export const askCasters = latest(async (on: string) => {
  const reply = await ask('casters', { on })
  sitingFault.value = reply.ok ? null : reply.fault
  if (reply.ok) casters.value = { on, told: reply.value }
})

export const askCanopies = latest(async (on: string) => {
  const reply = await ask('canopyYears', { on, ahead: AHEAD_YEARS })
  sitingFault.value = reply.ok ? null : reply.fault
  if (reply.ok) canopies.value = reply.value
})

/** Beds asked of at a time: the desk answers others between. */
const SLICE = 150
let stopped = false

/** Reckons month by month and slice by slice, so that it can be followed and stopped; what was reckoned is kept until a step changes the farm. */
export async function askSunLost(from: string, to: string, beds: number): Promise<void> {
  if (losing.value) return
  stopped = false
  sunLostStale.value = false
  const months = monthsBetween(from, to)
  const slices = Math.max(1, Math.ceil(beds / SLICE))
  const sums = new Map<string, BedShade>()
  let sunHours = 0
  losing.value = { done: 0, of: months.length * slices }
  try {
    for (const [n, month] of months.entries())
      for (let slice = 0; slice < slices; slice++) {
        const reply = await ask('bedShade', { ...month, skip: slice * SLICE, take: SLICE })
        if (stopped) return
        sitingFault.value = reply.ok ? null : reply.fault
        if (!reply.ok) return
        if (slice === 0) sunHours += reply.value.sunHours
        for (const one of reply.value.beds) sums.set(one.bed, add(sums.get(one.bed), one))
        losing.value = { done: n * slices + slice + 1, of: months.length * slices }
      }
    sunLost.value = { from, to, sunHours, beds: [...sums.values()] }
  } finally {
    losing.value = null
  }
}

export function stopSunLost(): void {
  stopped = true
}

function add(before: BedShade | undefined, one: BedShade): BedShade {
  if (!before) return one
  return {
    bed: one.bed,
    lostHours: before.lostHours + one.lostHours,
    bySupports: before.bySupports + one.bySupports,
    byTrees: before.byTrees + one.byTrees,
    byStructures: before.byStructures + one.byStructures,
  }
}

export function sitingIsStale(): void {
  sitingStale.value += 1
  if (sunLost.value) sunLostStale.value = true
}

whenFarmLeft(() => {
  stopped = true
  casters.value = null
  canopies.value = null
  sunLost.value = null
  sunLostStale.value = false
  sitingFault.value = null
})
