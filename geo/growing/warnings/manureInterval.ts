import { addDays, earlier } from '../days.ts'
import type { Ground } from '../ground.ts'
import type { Stand } from '../stand.ts'
import type { ManureInterval } from './warning.ts'

/** Days from raw manure to harvest: 120 where what is eaten touches the soil, 90 otherwise. 7 CFR 205.203(c)(1) (read). */
export const INTERVAL_DAYS = { touching: 120, clear: 90 } as const

const RULE =
  '7 CFR 205.203(c): 120 days where what is eaten touches the soil, 90 otherwise. Your local rule stands above it'

/**
 * The raw manure of a planting's bed that the next harvest comes too soon after: the first pick made from the day of the
 * dressing on; where none is, the first day that it stands and may be picked; where none is known, any planting that stands
 * within the interval. The day of the dressing is taken for the day it was worked in. A crop whose usual yield is nothing,
 * as a green manure's, is not harvested.
 */
export function manureIntervals(stand: Stand, { manure, picked }: Pick<Ground, 'manure' | 'picked'>): ManureInterval[] {
  const { planting, crop, bed } = stand
  const days = crop.touches_soil === false ? INTERVAL_DAYS.clear : INTERVAL_DAYS.touching
  const picks = picked.get(planting.id) ?? []
  return manure.flatMap((dressing) => {
    if (dressing.bed !== bed || crop.yield_high_kg_per_m2 === 0) return []
    const notBefore = addDays(dressing.on, days)
    if (planting.set_out >= notBefore || (planting.cleared !== null && planting.cleared <= dressing.on)) return []
    const harvest = nextHarvest(stand, picks, dressing.on)
    if (harvest !== null && harvest.on >= notBefore) return []
    return [
      {
        kind: 'manure' as const,
        planting: planting.id,
        bed,
        source: RULE,
        dressing: dressing.id,
        material: dressing.material,
        dressedOn: dressing.on,
        days,
        notBefore,
        harvest,
        touchesSoil: crop.touches_soil,
      },
    ]
  })
}

/**
 * The next harvest on a day or after it, of a planting not cleared by then: the first pick made, else that day itself where
 * it was picked before or the crop's usual days to the first pick are over, else when they are or on the day of clearing,
 * whichever comes first. Null where neither picks nor those days are told. Picks are oldest first.
 */
function nextHarvest({ planting, crop }: Stand, picks: readonly string[], from: string): ManureInterval['harvest'] {
  const made = picks.find((day) => day >= from)
  if (made !== undefined) return { on: made, how: 'picked' }
  const usual = crop.first_pick_days === null ? null : addDays(planting.set_out, Math.round(crop.first_pick_days))
  const first = earlier(usual, picks[0] ?? null)
  if (first === null) return null
  if (first < from) return { on: from, how: 'going on' }
  const { cleared } = planting
  return { on: cleared !== null && cleared < first ? cleared : first, how: 'expected' }
}
