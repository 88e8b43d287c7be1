import { signal } from '@preact/signals'
import { ASSUMED_WIND } from '../../../geo/supports/load/assumedWind.ts'

/** What costs and loads hang on beside the records; kept on this device. SI, money in the farm's currency. */
export interface Assumed {
  readonly labourPerHour: number
  readonly seasons: number
  readonly windMPerS: number
  readonly leafCoefficient: number
  /** Load on each metre of the top line; null: what plantings are expected to give, with vines, else the published design load. */
  readonly loadNPerM: number | null
  /** kg of vines for each kg of fruit; null: as is usual of each family. */
  readonly vinesPerFruit: number | null
  /** Minutes of work as the systems tell them, or as they were timed where they were. */
  readonly minutesFrom: MinutesFrom
}

export type MinutesFrom = 'systems' | 'records'

const KEPT = 'selion.supports'

/** Labour at 15 an hour is invented; ten seasons is a choice; wind as `ASSUMED_WIND` tells. */
export const ASSUMED: Assumed = {
  labourPerHour: 15,
  seasons: 10,
  windMPerS: ASSUMED_WIND.wind.speedMPerS,
  leafCoefficient: ASSUMED_WIND.leafCoefficient,
  loadNPerM: null,
  vinesPerFruit: null,
  minutesFrom: 'systems',
}

export const assumed = signal<Assumed>(readKept())

export function assume(change: Partial<Assumed>): void {
  assumed.value = { ...assumed.value, ...change }
  localStorage.setItem(KEPT, JSON.stringify(assumed.value))
}

function readKept(): Assumed {
  try {
    const told: unknown = JSON.parse(globalThis.localStorage?.getItem(KEPT) ?? 'null')
    if (typeof told !== 'object' || told === null) return ASSUMED
    const kept = Object.entries(told).filter(
      ([name, value]) =>
        name in ASSUMED &&
        (name === 'minutesFrom'
          ? value === 'systems' || value === 'records'
          : (typeof value === 'number' && Number.isFinite(value) && value >= 0) || value === null),
    )
    const read: Assumed = { ...ASSUMED, ...Object.fromEntries(kept) }
    return { ...read, seasons: Math.min(50, Math.max(1, Math.round(read.seasons))) }
  } catch {
    return ASSUMED
  }
}
