import type { StretchProps } from '../../../geo/layers/layer.ts'

/** A planting that stands on the day, its pieces of row added up; bed null until it is known. */
export interface Standing {
  readonly id: string
  readonly bed: string | null
  readonly crop: string
  readonly variety: string
  readonly family: string
  readonly setOut: string
  readonly lengthM: number
}

/** One line a planting, in the order met: a climbing one comes in held and unheld pieces. */
export function standingOf(
  pieces: readonly StretchProps[],
  bedOfPlanting: ReadonlyMap<string, string>,
): readonly Standing[] {
  const byId = new Map<string, Standing>()
  for (const { id, crop_name, variety_name, family, set_out, length_m } of pieces)
    byId.set(id, {
      id,
      bed: bedOfPlanting.get(id) ?? null,
      crop: crop_name,
      variety: variety_name,
      family,
      setOut: set_out,
      lengthM: (byId.get(id)?.lengthM ?? 0) + length_m,
    })
  return [...byId.values()]
}

export interface CropStanding {
  readonly crop: string
  readonly family: string
  readonly plantings: number
  readonly lengthM: number
}

/** What stands, added up by crop, the longest first. */
export function byCrop(standing: readonly Standing[]): readonly CropStanding[] {
  const found = new Map<string, CropStanding>()
  for (const { crop, family, lengthM } of standing) {
    const before = found.get(crop)
    found.set(crop, {
      crop,
      family,
      plantings: (before?.plantings ?? 0) + 1,
      lengthM: (before?.lengthM ?? 0) + lengthM,
    })
  }
  return [...found.values()].sort((a, b) => b.lengthM - a.lengthM)
}
