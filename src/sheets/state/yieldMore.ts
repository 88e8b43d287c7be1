import { signal } from '@preact/signals'
import type { Answer, DeskFault } from '../../desk/door.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'

/** What is told below the season's figure. */
export type YieldPart = 'zones' | 'seasons' | 'compared' | 'near' | 'to look at'
export const yieldPart = signal<YieldPart>('zones')

export const yieldSeasons = signal<Answer<'yieldSeasons'> | null>(null)
export const yieldCompared = signal<Answer<'yieldComparisons'> | null>(null)
export const yieldNear = signal<Answer<'yieldNear'> | null>(null)
export const yieldMoreFault = signal<DeskFault | null>(null)

interface AskedMore {
  readonly part: YieldPart
  readonly season: number
  readonly on: string
}

/** Reckons what a part tells; of many asked in haste the last is shown. */
export const askYieldMore = latest(async ({ part, season, on }: AskedMore) => {
  const ground = { season, seasons: [], of: null }
  const told = <T>(reply: { ok: true; value: T } | { ok: false; fault: DeskFault }): T | null => {
    yieldMoreFault.value = reply.ok ? null : reply.fault
    return reply.ok ? reply.value : null
  }
  if (part === 'seasons') yieldSeasons.value = told(await ask('yieldSeasons', { ...ground, on }))
  if (part === 'compared') yieldCompared.value = told(await ask('yieldComparisons', ground))
  if (part === 'near' || part === 'to look at') yieldNear.value = told(await ask('yieldNear', ground))
})

export function forgetYieldMore(): void {
  yieldSeasons.value = null
  yieldCompared.value = null
  yieldNear.value = null
  yieldMoreFault.value = null
}
