import { kgPerUnit, MASS_UNITS, type Weight } from '../../../geo/model/weigh.ts'

/** A unit that a quantity may be told in, and what one of it weighs for the crop; the source is the container's. */
export interface UnitFor {
  readonly unit: string
  readonly kg: number | null
  readonly source: string | null
}

export interface KnownContainer extends Weight {
  readonly source: string | null
}

/**
 * Units for a crop, those it was picked in last first, then its own containers, then those for every crop, then units of
 * mass, the farm's own first. Only what has a weight for the crop is offered.
 */
export function unitsFor(
  crop: string | null,
  containers: readonly KnownContainer[],
  used: readonly { readonly crop: string | null; readonly unit: string }[],
  units: 'metric' | 'us',
): readonly UnitFor[] {
  const masses = units === 'us' ? ['lb', 'oz', 'kg', 'g'] : ['kg', 'g', 'lb', 'oz']
  const own = containers.filter((one) => one.crop !== null && one.crop === crop)
  const every = containers.filter((one) => one.crop === null)
  const names = [
    ...used.filter((one) => one.crop === crop).map(({ unit }) => unit),
    ...own.map(({ unit }) => unit),
    ...every.map(({ unit }) => unit),
    ...masses,
  ]
  return [...new Set(names)]
    .map((unit) => ({ unit, kg: kgPerUnit(unit, crop, containers), source: sourceOf(unit, crop, containers) }))
    .filter(({ kg }) => kg !== null)
}

function sourceOf(unit: string, crop: string | null, containers: readonly KnownContainer[]): string | null {
  if (MASS_UNITS.has(unit)) return null
  const of = (wanted: string | null) => containers.find((one) => one.unit === unit && one.crop === wanted)
  return ((crop === null ? undefined : of(crop)) ?? of(null))?.source ?? null
}
