import type { StretchProps } from '../../../geo/layers/layer.ts'

/** A planting that stands on the day, its pieces of row added up. */
export interface Standing {
  readonly id: string
  readonly crop: string
  readonly variety: string
  readonly family: string
  readonly lengthM: number
}

/** One line a planting, in the order met: a climbing one comes in held and unheld pieces. */
export function standingOf(pieces: readonly StretchProps[]): readonly Standing[] {
  const byId = new Map<string, Standing>()
  for (const { id, crop_name, variety_name, family, length_m } of pieces)
    byId.set(id, {
      id,
      crop: crop_name,
      variety: variety_name,
      family,
      lengthM: (byId.get(id)?.lengthM ?? 0) + length_m,
    })
  return [...byId.values()]
}
