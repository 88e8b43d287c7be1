/** How wind meets the leafed side: speeds in m/s, factors without unit. */
export interface Wind {
  readonly speedMPerS: number
  /** Exposure at that height (Kz), lie of the land (Kzt) and direction (Kd). */
  readonly exposure: number
  readonly topography: number
  readonly direction: number
}

/** Velocity pressure, Pa: q = 0.613·Kz·Kzt·Kd·V² (ASCE 7, SI form). */
export const windPressurePa = ({ speedMPerS, exposure, topography, direction }: Wind) =>
  0.613 * exposure * topography * direction * speedMPerS ** 2

/** Section modulus of a round post, m³: πd³/32. */
export const roundSectionM3 = (diameterM: number) => (Math.PI * diameterM ** 3) / 32

/**
 * Bending stress at the ground, Pa, in a post that takes the wind of its share of a leafed side which reaches from the
 * ground to the top: M = q·Cf·h·s·h/2, over the section modulus.
 */
export function postBendingPa(of: {
  readonly pressurePa: number
  /** Force coefficient of the leafed side, its gaps counted in. */
  readonly coefficient: number
  readonly heightM: number
  readonly spacingM: number
  readonly sectionM3: number
}): number {
  return (of.pressurePa * of.coefficient * of.heightM * of.spacingM * (of.heightM / 2)) / of.sectionM3
}
