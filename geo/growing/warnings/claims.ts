import { earlier, later } from '../days.ts'
import { sharedGround } from '../shares.ts'
import type { Stand } from '../stand.ts'
import type { Claimed } from './warning.ts'

/** The other plantings of a bed that stand on some of the same ground on a day that this one stands. */
export function claims(stand: Stand, others: readonly Stand[]): Claimed[] {
  const { id, set_out, cleared } = stand.planting
  return others.flatMap((other) => {
    const { planting } = other
    if (planting.id === id) return []
    const from = later(planting.set_out, set_out)
    const until = earlier(planting.cleared, cleared)
    if (until !== null && until <= from) return []
    const shared = sharedGround(stand, other)
    if (!shared) return []
    return [
      {
        kind: 'claimed' as const,
        planting: id,
        bed: stand.bed,
        source: 'one stretch holds one planting at a time; a planting stands until the day it is cleared',
        other: { planting: planting.id, crop: other.crop.name, variety: other.variety },
        shared,
        from,
        until,
        wholeWidth: stand.row === null || other.row === null,
      },
    ]
  })
}
