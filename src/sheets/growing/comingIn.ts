import type { Crop } from '../../../geo/model/crops.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import type { Variety } from '../../../geo/model/varieties.ts'

/** A planting that is still to be set out. */
export interface Coming {
  readonly id: string
  readonly crop: string
  readonly variety: string
  readonly setOut: string
}

/** What is set out after a day in the same season, soonest first. */
export function comingIn(
  plantings: readonly Planting[],
  crops: readonly Crop[],
  varieties: readonly Variety[],
  on: string,
  inSeason: (day: string) => boolean,
): readonly Coming[] {
  const cropById = new Map(crops.map((crop) => [crop.id, crop.name]))
  const varietyById = new Map(varieties.map((variety) => [variety.id, variety]))
  return plantings
    .filter(({ set_out }) => set_out > on && inSeason(set_out))
    .map(({ id, variety, set_out }) => {
      const found = varietyById.get(variety)
      return { id, crop: cropById.get(found?.crop ?? '') ?? '', variety: found?.name ?? '', setOut: set_out }
    })
    .sort((a, b) => (a.setOut < b.setOut ? -1 : a.setOut > b.setOut ? 1 : 0))
}
