import { signal } from '@preact/signals'
import type { Answer, DeskFault, Reply, YieldGroundAsked } from '../../desk/door.ts'
import { ask } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

/** What is told below the season's figure. */
export type YieldPart = 'zones' | 'seasons' | 'compared' | 'near' | 'to look at'
export const yieldPart = signal<YieldPart>('zones')

export const yieldSeasons = signal<Answer<'yieldSeasons'> | null>(null)
export const yieldCompared = signal<Answer<'yieldComparisons'> | null>(null)
export const yieldNear = signal<Answer<'yieldNear'> | null>(null)
export const yieldMoreFault = signal<DeskFault | null>(null)

/** What is asked of a part; `step` counts the steps that may have changed it. */
export interface AskedMore {
  readonly part: YieldPart
  readonly ground: YieldGroundAsked
  readonly on: string
  readonly step: number
}

/** What each answer that stands was asked for. */
const stands = new Map<object, string>()

/** Reckons what a part tells, unless it stands already; of many asked in haste the last is shown. */
export const askYieldMore = latest(async ({ part, ground, on, step }: AskedMore) => {
  const tell = async <T>(into: { value: T | null }, of: string, reckon: () => Promise<Reply<T>>) => {
    yieldMoreFault.value = null
    if (stands.get(into) === of) return
    const reply = await reckon()
    if (!reply.ok) yieldMoreFault.value = reply.fault
    into.value = reply.ok ? reply.value : null
    if (reply.ok) stands.set(into, of)
    else stands.delete(into)
  }
  const of = JSON.stringify([ground, step])
  if (part === 'seasons') await tell(yieldSeasons, `${of} ${on}`, () => ask('yieldSeasons', { ...ground, on }))
  if (part === 'compared') await tell(yieldCompared, of, () => ask('yieldComparisons', ground))
  if (part === 'near' || part === 'to look at') await tell(yieldNear, of, () => ask('yieldNear', ground))
})

whenFarmLeft(() => {
  stands.clear()
  yieldSeasons.value = null
  yieldCompared.value = null
  yieldNear.value = null
  yieldMoreFault.value = null
})
