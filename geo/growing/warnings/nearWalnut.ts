import { spreadOn } from '../../measure/canopy.ts'
import { distanceToLine } from '../../plane/distance.ts'
import { addDays, addYears, daysBetween, earlier, later } from '../days.ts'
import type { Ground } from '../ground.ts'
import type { Stand } from '../stand.ts'
import type { NearWalnut } from './warning.ts'

const REACH =
  'Reach: 50–60 ft from a mature trunk, as far as a young tree is tall; Ohio State Univ. (Funt & Martin), UW–Madison XHT1017'

/**
 * The trees whose roots reach a planting of a sensitive crop on a day that both stand: at once, or by the growth of the
 * tree before it is cleared. Without a day of clearing it is looked at for as long as the crop usually stands (one year
 * where that is not known). Reach as `spreadOn` has it, which never shrinks from one day to the next.
 */
export function nearWalnuts(stand: Stand, sources: Ground['sources']): NearWalnut[] {
  const { crop, planting } = stand
  if (crop.juglone !== 'sensitive') return []
  return sources.flatMap(({ tree, at, everM }) => {
    const trunkM = distanceToLine(at, stand.line)
    if (trunkM > everM) return []
    const first = later(tree.planted ?? planting.set_out, planting.set_out)
    const until = lastDayOf(stand, tree.removed)
    if (until < first) return []
    const spread = spreadOn(tree, until)
    if (trunkM > spread.reachM) return []
    return [
      {
        kind: 'walnut' as const,
        planting: planting.id,
        bed: stand.bed,
        source: `${crop.juglone_source ?? 'its class as the crop says; no source is kept'}. ${REACH}`,
        tree: tree.id,
        treeName: tree.name ?? tree.species,
        trunkM,
        reachM: spread.reachM,
        from: firstWithin(first, until, (day) => trunkM <= spreadOn(tree, day).reachM),
        until,
        assumed: spread.assumed,
        sure: crop.juglone_sure,
      },
    ]
  })
}

function lastDayOf({ planting, crop }: Stand, removed: string | null): string {
  const cleared = planting.cleared ?? addYears(planting.set_out, Math.max(1, Math.ceil(crop.stands_years ?? 1)))
  return addDays(earlier(cleared, removed)!, -1)
}

/** The first day that holds, of days of which the last does and each after one that does, does too. */
function firstWithin(first: string, last: string, holds: (day: string) => boolean): string {
  let [low, high] = [0, daysBetween(first, last)]
  while (low < high) {
    const middle = Math.floor((low + high) / 2)
    if (holds(addDays(first, middle))) high = middle
    else low = middle + 1
  }
  return addDays(first, low)
}
