import type { LaidBed } from '../plantingStrips.ts'
import { countedPlantings } from '../plantingStrips.ts'
import { bedFinder, spotGround } from '../spotGround.ts'
import type { YieldInput, YieldPlanting } from '../yieldInput.ts'

/** Mass in a season: in all, and up to the day looked at or the same day of an earlier season. */
export interface PickedKg {
  readonly kg: number
  readonly byDayKg: number
}

/** Picks of one day told by bed, or by spot (metres in the plane), and not by planting; `byDay`: not after the day looked at. */
export interface LoosePick {
  readonly on: string
  readonly byDay: boolean
  readonly bed: string | null
  readonly x: number | null
  readonly y: number | null
  readonly kg: number
}

/** What was picked in a season of each crop, and what belongs to none that can be told. */
export interface PickedByCrop {
  readonly crops: ReadonlyMap<string, PickedKg>
  readonly ofNoCrop: PickedKg
}

/**
 * Counts a season's picks to crops: those told by planting (`told`) to its crop; one told by bed to the only crop that
 * stood in the bed on its day, else to the only one that stood there in the season, else to none; one told by spot as
 * by the beds within 1 m of it, by their ground there. All of it together is the season's mass.
 */
export function pickedByCrop(
  input: YieldInput,
  beds: readonly LaidBed[],
  told: readonly (PickedKg & { readonly crop: string })[],
  loose: readonly LoosePick[],
): PickedByCrop {
  const sums = new Map<string | null, PickedKg>()
  const count = (crop: string | null, kg: number, byDayKg: number) => {
    const before = sums.get(crop) ?? { kg: 0, byDayKg: 0 }
    sums.set(crop, { kg: before.kg + kg, byDayKg: before.byDayKg + byDayKg })
  }
  for (const { crop, kg, byDayKg } of told) count(crop, kg, byDayKg)
  const inBed = new Map<string, YieldPlanting[]>()
  for (const planting of countedPlantings(input))
    inBed.set(planting.bed, [...(inBed.get(planting.bed) ?? []), planting])
  const cropIn = (bed: string, on: string): string | null => {
    const all = inBed.get(bed) ?? []
    const stood = all.filter(({ setOut, cleared }) => setOut <= on && (cleared === null || cleared >= on))
    return onlyCrop(stood) ?? onlyCrop(all)
  }
  const finder = bedFinder(beds)
  for (const { on, byDay, bed, x, y, kg } of loose) {
    const parts = bed !== null ? [{ bed, share: 1 }] : sharesOf(spotGround(finder, x!, y!).parts, beds)
    if (parts.length === 0) count(null, kg, byDay ? kg : 0)
    for (const part of parts) {
      const own = kg * part.share
      count(cropIn(part.bed, on), own, byDay ? own : 0)
    }
  }
  const crops = new Map<string, PickedKg>()
  for (const [crop, sum] of sums) if (crop !== null) crops.set(crop, sum)
  return { crops, ofNoCrop: sums.get(null) ?? { kg: 0, byDayKg: 0 } }
}

function sharesOf(parts: readonly { readonly bed: number; readonly areaM2: number }[], beds: readonly LaidBed[]) {
  const areaM2 = parts.reduce((sum, part) => sum + part.areaM2, 0)
  return parts.map((part) => ({ bed: beds[part.bed]!.id, share: part.areaM2 / areaM2 }))
}

function onlyCrop(plantings: readonly YieldPlanting[]): string | null {
  const crops = new Set(plantings.map(({ crop }) => crop))
  return crops.size === 1 ? [...crops][0]! : null
}
