import type { Metres } from '../plane/lonLat.ts'

/** Something that throws a shadow on the flat ground of the plane. Heights in metres above it. */
export type Caster = Wall | Crown

/** An upright face along a line from the ground to a height: a leafed support, a fence, a side of a shed. */
export interface Wall {
  readonly shape: 'wall'
  readonly from: Metres
  readonly to: Metres
  readonly heightM: number
}

/** The crown of a tree: a ball or an upright ellipsoid. */
export interface Crown {
  readonly shape: 'crown'
  readonly at: Metres
  readonly radiusM: number
  readonly lowM: number
  readonly highM: number
}

/** A support whose height neither it nor its system tells is taken to be so tall: our assumption. */
export const SUPPORT_HEIGHT_M = 1.8

/** How far from its foot a caster can throw a shadow while the sun stands at least so high. */
export function reachM(caster: Caster, altitudeDeg: number): number {
  const perMetre = 1 / Math.tan((altitudeDeg * Math.PI) / 180)
  return caster.shape === 'wall' ? caster.heightM * perMetre : caster.radiusM + caster.highM * perMetre
}
