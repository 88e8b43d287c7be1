import type { PlantingStrip } from './plantingStrips.ts'

/** What a crop gave across the farm in the season. */
export type CropMean = {
  readonly crop: string
  readonly kg: number
  /** Ground of all its plantings that count to the season. */
  readonly areaM2: number
  readonly plantings: number
  readonly kgPerM2: number
}

/** A pick that counts to a crop. */
export type CropPick = { readonly crop: string; readonly kg: number }

/**
 * Farm mean of each picked crop: all that was picked of it over the ground of all its plantings, those that gave
 * nothing included. A crop without picks, or without plantings, has none.
 */
export function cropMeans(strips: readonly PlantingStrip[], picks: readonly CropPick[]): Map<string, CropMean> {
  const kg = new Map<string, number>()
  for (const pick of picks) kg.set(pick.crop, (kg.get(pick.crop) ?? 0) + pick.kg)
  const ground = new Map<string, { areaM2: number; plantings: number }>()
  for (const { planting, areaM2 } of strips) {
    const sum = ground.get(planting.crop) ?? { areaM2: 0, plantings: 0 }
    ground.set(planting.crop, { areaM2: sum.areaM2 + areaM2, plantings: sum.plantings + 1 })
  }
  const means = new Map<string, CropMean>()
  for (const [crop, { areaM2, plantings }] of ground) {
    const picked = kg.get(crop) ?? 0
    if (picked > 0) means.set(crop, { crop, kg: picked, areaM2, plantings, kgPerM2: picked / areaM2 })
  }
  return means
}

/** The one crop of each bed whose plantings of the season are all of that crop: picks told only by bed count to it. */
export function soleCrops(strips: readonly PlantingStrip[], bedCount: number): (string | null)[] {
  const crops: Set<string>[] = Array.from({ length: bedCount }, () => new Set())
  for (const { bed, planting } of strips) crops[bed]!.add(planting.crop)
  return crops.map((set) => (set.size === 1 ? [...set][0]! : null))
}
