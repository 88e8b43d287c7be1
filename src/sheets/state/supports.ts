import { signal } from '@preact/signals'
import type { DeskFault, HeldPiece, ReckonedComparisons, SupportsSeen, WornRun } from '../../desk/door.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

/** What bills, costs and loads are reckoned from, of the day shown. */
export const seen = signal<SupportsSeen | null>(null)
export const held = signal<{ readonly season: number; readonly pieces: readonly HeldPiece[] } | null>(null)
export const wear = signal<readonly WornRun[] | null>(null)
export const compared = signal<ReckonedComparisons | null>(null)
export const supportsFault = signal<DeskFault | null>(null)
/** Counts up when a step may have changed what was told. */
export const supportsStale = signal(0)

/** What part of the Supports sheet is open below its tables. */
export type SupportsPart = 'bill' | 'season' | 'years' | 'load' | 'wear'
export const supportsPart = signal<SupportsPart>('bill')

/** What the bill is made out for; `run` where a run's card is open. */
export type Scope = 'run' | 'field' | 'farm'
export const scopeAsked = signal<Scope>('run')

export const askSeen = latest(async (on: string) => {
  const reply = await ask('supportsSeen', { on })
  supportsFault.value = reply.ok ? null : reply.fault
  if (reply.ok) seen.value = reply.value
})

export const askHeld = latest(async (season: number) => {
  const reply = await ask('heldSeason', { season })
  supportsFault.value = reply.ok ? null : reply.fault
  if (reply.ok) held.value = { season, pieces: reply.value }
})

export const askWear = latest(async (on: string) => {
  const reply = await ask('supportsWear', { on })
  supportsFault.value = reply.ok ? null : reply.fault
  if (reply.ok) wear.value = reply.value
})

export const askCompared = latest(async (season: number) => {
  const reply = await ask('systemsCompared', { season })
  supportsFault.value = reply.ok ? null : reply.fault
  if (reply.ok) compared.value = reply.value
})

export function supportsAreStale(): void {
  supportsStale.value += 1
}

whenFarmLeft(() => {
  seen.value = null
  held.value = null
  wear.value = null
  compared.value = null
  supportsFault.value = null
})
