/** Kilograms of a pound, exactly (NIST Handbook 44, appendix C). */
export const KG_PER_LB = 0.45359237

/** Units of mass that need no container, in kilograms. */
export const MASS_UNITS: ReadonlyMap<string, number> = new Map([
  ['kg', 1],
  ['g', 0.001],
  ['lb', KG_PER_LB],
  ['oz', KG_PER_LB / 16],
])

/** What one container weighs; crop null is every crop. */
export interface Weight {
  readonly unit: string
  readonly kg: number
  readonly crop: string | null
}

/**
 * Kilograms of one unit of a crop: a built-in unit of mass, else the crop's own container, else one that holds for
 * every crop. Null where nothing says what it weighs (a bushel too has no weight of its own). `crop` null: not known.
 */
export function kgPerUnit(unit: string, crop: string | null, containers: readonly Weight[]): number | null {
  const mass = MASS_UNITS.get(unit)
  if (mass !== undefined) return mass
  let forEvery: number | null = null
  for (const container of containers) {
    if (container.unit !== unit) continue
    if (container.crop === null) forEvery = container.kg
    else if (container.crop === crop) return container.kg
  }
  return forEvery
}
