import type { Plan } from './problem.ts'
import type { SitingReading } from './sitingReading.ts'

/** A lot that a plan needs out of the ground. */
export interface LotToLift {
  readonly bed: string
  /** Null where the lot is told by its bed alone. */
  readonly row: string | null
  readonly lot: string
  readonly kind: string
  /** Plants that stand when the plan begins. */
  readonly count: number
  /** The year before which it has to be lifted. */
  readonly before: number
}

/**
 * Stock to be lifted for a plan, bed by bed: before a permanent support is built in its bed, and, where stock leaves no
 * row open, before anything climbs there.
 */
export function lotsToLift({ asked, problem, beds }: SitingReading, plan: Plan): LotToLift[] {
  return [...plan]
    .sort((a, b) => a.bed - b.bed)
    .flatMap(({ bed: n, site, built, climbs }): LotToLift[] => {
      const { id, lots, taken, sites } = beds[n]!
      const first = climbs.findIndex((family) => family !== null)
      const side = site === null ? null : problem.beds[n]!.sites[site]!.side
      const builds = side !== null && !sites.find((one) => one.side === side)!.stands
      const t = Math.min(
        builds ? built : Number.POSITIVE_INFINITY,
        taken.openFrom > 0 && first >= 0 ? first : Number.POSITIVE_INFINITY,
      )
      if (t === Number.POSITIVE_INFINITY) return []
      return lots.map((lot) => ({
        bed: id,
        row: lot.row,
        lot: lot.id,
        kind: lot.kind,
        count: lot.standing,
        before: asked.from + t,
      }))
    })
}
