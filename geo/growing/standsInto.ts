import { addYears } from './days.ts'
import type { Ground } from './ground.ts'
import { growingSeason, lastSeason } from './growingSeason.ts'
import { type Stand, standsOf } from './stand.ts'

/** Whether a planting stays for years where it is, so that no plan moves it. */
export const stays = ({ planting, crop }: Stand): boolean => planting.cleared === null && (crop.stands_years ?? 1) > 1

/** A planting that stands into a season, with the first season in which its place is open again. */
export interface StandsInto {
  readonly stand: Stand
  readonly until: number
}

/**
 * What stands into a season: what stays for years until they are over, anything else until the season after it is
 * cleared. What is set out after the day that is looked at and does not stay is only planned, and not among them.
 */
export function standsInto(
  ground: Ground,
  { from, on }: { readonly from: number; readonly on: string },
): readonly StandsInto[] {
  const month = ground.seasonStartMonth
  return standsOf(ground).flatMap((stand) => {
    const { set_out: setOut, cleared } = stand.planting
    if ((setOut > on && !stays(stand)) || cleared === setOut) return []
    const until = stays(stand)
      ? growingSeason(addYears(setOut, Math.ceil(stand.crop.stands_years ?? 1)), null, month)
      : cleared === null
        ? growingSeason(setOut, null, month) + 1
        : Math.max(growingSeason(setOut, cleared, month), lastSeason(setOut, cleared, month)) + 1
    return until > from ? [{ stand, until }] : []
  })
}
