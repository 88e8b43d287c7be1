import { addYears } from '../growing/days.ts'
import type { Ground } from '../growing/ground.ts'
import { growingSeason, lastSeason } from '../growing/growingSeason.ts'
import { standsOf } from '../growing/stand.ts'
import { stays } from './cropGroups.ts'

/** Why a bed is left out of a rotation: in every season, or until one that is told. */
export interface LeftOut {
  readonly until: number | null
  readonly why: string
}

export interface LeftOutBy {
  readonly asked: readonly string[]
  readonly lots: ReadonlyMap<string, readonly { readonly kind: string; readonly standing: number }[]>
  /** The first season of the rotation, and the day that is looked at: what is set out after it and does not stay is only planned. */
  readonly from: number
  readonly on: string
}

/** By bed; beds not told are open from the first season on. */
export function leftOut(ground: Ground, { asked, lots, from, on }: LeftOutBy): Map<string, LeftOut> {
  const found = new Map<string, LeftOut>()
  const month = ground.seasonStartMonth
  for (const stand of standsOf(ground)) {
    const { set_out: setOut, cleared } = stand.planting
    if ((setOut > on && !stays(stand)) || cleared === setOut) continue
    const name = stand.crop.name
    const until = stays(stand)
      ? growingSeason(addYears(setOut, Math.ceil(stand.crop.stands_years ?? 1)), null, month)
      : cleared === null
        ? growingSeason(setOut, null, month) + 1
        : Math.max(growingSeason(setOut, cleared, month), lastSeason(setOut, cleared, month)) + 1
    const before = found.get(stand.bed)
    if (until > from && (before?.until ?? from) < until) found.set(stand.bed, { until, why: `${name} stands there` })
  }
  for (const [bed, standing] of lots)
    found.set(bed, {
      until: null,
      why: `stock stands there: ${standing.map(({ kind, standing: count }) => `${count} ${kind}`).join(', ')}`,
    })
  for (const bed of asked) found.set(bed, { until: null, why: 'as asked for' })
  return found
}
