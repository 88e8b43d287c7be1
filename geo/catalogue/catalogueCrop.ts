import type { Crop } from '../model/crops.ts'

/** A value and where it comes from. */
export type Sourced<T> = readonly [value: T, source: string]

/** A crop as the catalogue offers it: every value beside its source. Spacing in metres along a row, yields in kg/m². */
export interface CatalogueCrop {
  readonly key: string
  readonly name: string
  /** By its botanical name. */
  readonly family: string
  readonly climbs: Sourced<boolean>
  readonly juglone: readonly [NonNullable<Crop['juglone']>, source: string, sure: NonNullable<Crop['juglone_sure']>]
  /** Null where none is known. */
  readonly returnYears: Sourced<number> | null
  readonly spacingM: Sourced<number>
  readonly yieldKgPerM2: readonly [low: number, high: number, source: string] | null
  readonly touchesSoil: Sourced<boolean>
  readonly firstPickDays: Sourced<number> | null
  readonly standsYears: Sourced<number>
}

/** A crop of the catalogue as a farm's record, its sources with it. */
export function cropOf(entry: CatalogueCrop, id: string): Crop {
  const [low, high, yieldSource] = entry.yieldKgPerM2 ?? [null, null, null]
  return {
    id,
    name: entry.name,
    family: entry.family,
    climbs: entry.climbs[0],
    climbs_source: entry.climbs[1],
    juglone: entry.juglone[0],
    juglone_source: entry.juglone[1],
    juglone_sure: entry.juglone[2],
    return_years: entry.returnYears?.[0] ?? null,
    return_source: entry.returnYears?.[1] ?? null,
    usual_spacing_m: entry.spacingM[0],
    spacing_source: entry.spacingM[1],
    yield_low_kg_per_m2: low,
    yield_high_kg_per_m2: high,
    yield_source: yieldSource,
    touches_soil: entry.touchesSoil[0],
    touches_soil_source: entry.touchesSoil[1],
    first_pick_days: entry.firstPickDays?.[0] ?? null,
    first_pick_source: entry.firstPickDays?.[1] ?? null,
    stands_years: entry.standsYears[0],
    stands_source: entry.standsYears[1],
    support_after_days: null,
    extra: {},
  }
}
