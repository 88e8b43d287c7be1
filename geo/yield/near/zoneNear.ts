import type { Stretch } from '../stretches.ts'
import type { LowYieldZone } from '../zones.ts'
import type { Factor } from './factor.ts'

/** A plot or a note counts to a zone where its place lies within this of the middle of one of its stretches. */
export const IN_ZONE_M = 4

/** A factor's mean over the plots of a zone and over all others, of those that it can be told of. */
export interface ZoneFactor extends Pick<Factor, 'id' | 'kind' | 'name' | 'reachM'> {
  readonly here: number
  /** Null where the zone holds all such plots. */
  readonly elsewhere: number | null
}

/** What lies near a zone, factor by factor. */
export interface ZoneNear {
  /** Its place in the list of zones, from `zone 1`. */
  readonly zone: string
  /** Plots whose middle lies in it. */
  readonly plots: number
  readonly factors: readonly ZoneFactor[]
}

/** For each plot whether it lies in the zone. */
export function plotsInside(
  zone: LowYieldZone,
  stretches: readonly Stretch[],
  plots: readonly { readonly bed: number; readonly x: number; readonly y: number }[],
): boolean[] {
  const own = zone.stretches.map((s) => stretches[s]!)
  return plots.map(({ bed, x, y }) => own.some((s) => s.bed === bed && Math.hypot(s.x - x, s.y - y) <= IN_ZONE_M))
}

/** A factor in a zone against elsewhere; null where none of the zone's plots tells of it. */
export function zoneFactor(factor: Factor, inside: readonly boolean[]): ZoneFactor | null {
  const { id, kind, name, reachM, values, among } = factor
  const meanOf = (wanted: boolean): number | null => {
    const own = values.filter((_, k) => inside[k] === wanted && (among?.[k] ?? true))
    return own.length === 0 ? null : own.reduce((sum, v) => sum + v / own.length, 0)
  }
  const here = meanOf(true)
  return here === null ? null : { id, kind, name, reachM, here, elsewhere: meanOf(false) }
}

/** What lies near each zone, in their order, factor by factor. */
export function zonesNear(
  zones: readonly LowYieldZone[],
  stretches: readonly Stretch[],
  plots: readonly { readonly bed: number; readonly x: number; readonly y: number }[],
  factors: readonly Factor[],
): ZoneNear[] {
  return zones.map((zone, z) => {
    const inside = plotsInside(zone, stretches, plots)
    return {
      zone: `zone ${z + 1}`,
      plots: inside.filter(Boolean).length,
      factors: factors.flatMap((factor) => zoneFactor(factor, inside) ?? []),
    }
  })
}
