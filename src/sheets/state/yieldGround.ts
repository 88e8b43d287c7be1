import { computed, signal } from '@preact/signals'
import type { OfCrops, YieldGroundAsked } from '../../desk/door.ts'
import { openFarm } from './farm.ts'
import { whenFarmLeft } from './leaving.ts'
import { weeks } from './weeks.ts'
import { season } from './where.ts'

/** One crop or family whose yield alone is looked at; null for all. */
export const yieldOf = signal<OfCrops | null>(null)
/** With how many seasons before it the season shown is taken together: with none, with the last one, or with all. */
export const yieldSpan = signal<'one' | 'two' | 'all'>('one')

/** Seasons that something was picked in, up to the one shown and with it, oldest first; as far as they are known. */
export const seasonsSoFar = computed(() => {
  const picked = (openFarm.value?.seasons ?? []).filter((one) => weeks.value.get(one)?.some(({ kg }) => kg > 0))
  return [...picked.filter((one) => one < season.value), season.value].sort((a, b) => a - b)
})

const groundTold = computed(() => {
  const all = seasonsSoFar.value
  const seasons = yieldSpan.value === 'all' ? all : all.slice(yieldSpan.value === 'two' ? -2 : -1)
  return JSON.stringify({ season: season.value, seasons, of: yieldOf.value })
})

/** What all of the Yield sheet is asked of; another only where it tells something else. */
export const yieldGround = computed(() => JSON.parse(groundTold.value) as YieldGroundAsked)

whenFarmLeft(() => {
  yieldOf.value = null
  yieldSpan.value = 'one'
})
