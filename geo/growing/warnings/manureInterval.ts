import { addDays, earlier } from '../days.ts'
import type { Ground } from '../ground.ts'
import type { Stand } from '../stand.ts'
import type { ManureInterval } from './warning.ts'

/** Days from raw manure to harvest: 120 where what is eaten touches the soil, 90 otherwise. 7 CFR 205.203(c)(1) (read). */
export const INTERVAL_DAYS = { touching: 120, clear: 90 } as const

const RULE =
  '7 CFR 205.203(c): 120 days where what is eaten touches the soil, 90 otherwise. Your local rule stands above it'

/**
 * The raw manure of a planting's bed that a harvest comes too soon after: a pick that was made within the interval, else
 * the first to be expected, by the crop's usual days to it or on the day of clearing, whichever comes first; where none is
 * known, any planting that stands within the interval. The day of the dressing is taken for the day it was worked in. A
 * crop whose usual yield is nothing, as a green manure's, is not harvested.
 */
export function manureIntervals(stand: Stand, { manure, picked }: Pick<Ground, 'manure' | 'picked'>): ManureInterval[] {
  const { planting, crop, bed } = stand
  const days = crop.touches_soil === false ? INTERVAL_DAYS.clear : INTERVAL_DAYS.touching
  const picks = picked.get(planting.id) ?? []
  const usual = crop.first_pick_days === null ? null : addDays(planting.set_out, Math.round(crop.first_pick_days))
  const expected = usual && earlier(usual, planting.cleared)
  return manure.flatMap((dressing) => {
    if (dressing.bed !== bed || crop.yield_high_kg_per_m2 === 0) return []
    const notBefore = addDays(dressing.on, days)
    if (planting.set_out >= notBefore || (planting.cleared !== null && planting.cleared <= dressing.on)) return []
    const within = (day: string) => day >= dressing.on && day < notBefore
    const early = picks.find(within)
    if (!early && (picks.length > 0 || (expected !== null && !within(expected)))) return []
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
        harvest: early
          ? { on: early, how: 'picked' as const }
          : expected === null
            ? null
            : { on: expected, how: 'expected' as const },
        touchesSoil: crop.touches_soil,
      },
    ]
  })
}
