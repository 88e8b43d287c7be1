import type { Ground } from '../growing/ground.ts'
import { standsInto } from '../growing/standsInto.ts'
import { type LotStanding, stockWords } from '../siting/standing.ts'

/** Why a bed is left out of a rotation: in every season, or until one that is told. */
export interface LeftOut {
  readonly until: number | null
  readonly why: string
}

export interface LeftOutBy {
  readonly asked: readonly string[]
  readonly lots: ReadonlyMap<string, readonly Pick<LotStanding, 'kind' | 'standing'>[]>
  /** The first season of the rotation, and the day that is looked at: what is set out after it and does not stay is only planned. */
  readonly from: number
  readonly on: string
}

/** By bed; beds not told are open from the first season on. */
export function leftOut(ground: Ground, { asked, lots, from, on }: LeftOutBy): Map<string, LeftOut> {
  const found = new Map<string, LeftOut>()
  for (const { stand, until } of standsInto(ground, { from, on })) {
    const before = found.get(stand.bed)
    if ((before?.until ?? from) < until) found.set(stand.bed, { until, why: `${stand.crop.name} stands there` })
  }
  for (const [bed, standing] of lots)
    found.set(bed, { until: null, why: `stock stands there: ${stockWords(standing)}` })
  for (const bed of asked) found.set(bed, { until: null, why: 'as asked for' })
  return found
}
