import type { Standing } from '../hotAndCold.ts'
import type { Stretch } from '../stretches.ts'
import type { LowYieldZone } from '../zones.ts'

/** In how many of the seasons that tell anything about a piece of ground it was cold, and in how many hot. */
export interface Stability {
  readonly told: number
  readonly cold: number
  readonly hot: number
}

/** The same of a zone, with the seasons: cold where half of its area or more was. */
export interface ZoneStability {
  readonly toldSeasons: readonly number[]
  readonly coldSeasons: readonly number[]
}

export const isCold = (standing: Standing | null, alpha: number): boolean =>
  standing !== null && standing.z < 0 && standing.q <= alpha

const isHot = (standing: Standing | null, alpha: number): boolean =>
  standing !== null && standing.z > 0 && standing.q <= alpha

/** Stretch by stretch, over seasons whose beds are cut alike: `standings[season][stretch]`. */
export function stretchStability(standings: readonly (readonly (Standing | null)[])[], alpha: number): Stability[] {
  return (standings[0] ?? []).map((_, k) => {
    const ofStretch = standings.map((season) => season[k]!)
    return {
      told: ofStretch.filter((standing) => standing !== null).length,
      cold: ofStretch.filter((standing) => isCold(standing, alpha)).length,
      hot: ofStretch.filter((standing) => isHot(standing, alpha)).length,
    }
  })
}

/** In which seasons a zone was cold: those in which half of its area or more was, of those that tell of half or more. */
export function zoneStability(
  zone: LowYieldZone,
  stretches: readonly Stretch[],
  seasons: readonly { readonly season: number; readonly standings: readonly (Standing | null)[] }[],
  alpha: number,
): ZoneStability {
  const share = (which: (k: number) => boolean): number =>
    zone.stretches.reduce((sum, k) => sum + (which(k) ? stretches[k]!.areaM2 : 0), 0) / zone.areaM2
  const told = seasons.filter(({ standings }) => share((k) => standings[k] !== null) >= 0.5)
  const cold = told.filter(({ standings }) => share((k) => isCold(standings[k]!, alpha)) >= 0.5)
  return { toldSeasons: told.map(({ season }) => season), coldSeasons: cold.map(({ season }) => season) }
}
