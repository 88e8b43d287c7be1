import type { Footprint } from '../footprints.ts'
import type { LaidBed, PlantingStrip } from '../plantingStrips.ts'
import { type Ring, ringsCentroid } from '../ring.ts'

/**
 * The least ground whose yield was told by itself: a planting in a season, or a whole bed where some of its picks were
 * told only by bed or spot. Only what can be held against other plantings of its crop.
 */
export interface Plot {
  readonly season: number
  /** Place of its bed in the list of beds. */
  readonly bed: number
  /** Places of its footprints in the report's list. */
  readonly footprints: readonly number[]
  readonly plantings: readonly string[]
  readonly areaM2: number
  readonly x: number
  readonly y: number
  readonly kg: number
  readonly expectedKg: number
}

/** What of a report plots are made of. */
type Grounds = {
  readonly footprints: readonly Footprint[]
  readonly ground: readonly LaidBed[]
  readonly strips: readonly (readonly PlantingStrip[])[]
}

/** Plots of a report, season by season. */
export function plotsOf({ footprints, ground, strips }: Grounds): Plot[] {
  const areaOf = new Map(strips.flat().map(({ planting, areaM2 }) => [planting.id, areaM2]))
  const byBed = new Map<string, number[]>()
  footprints.forEach(({ season, bed, plantingsOfCrop }, k) => {
    if (plantingsOfCrop < 2) return
    const key = `${season} ${bed}`
    const list = byBed.get(key)
    if (list) list.push(k)
    else byBed.set(key, [k])
  })
  return [...byBed.values()].flatMap((list) => {
    const whole = list.some((k) => footprints[k]!.planting === null)
    const groups = whole ? [list] : list.map((k) => [k])
    return groups.flatMap((group) =>
      plotOf(group, footprints, whole ? ground[footprints[group[0]!]!.bed]! : null, areaOf),
    )
  })
}

function plotOf(
  group: readonly number[],
  footprints: readonly Footprint[],
  bed: { readonly rings: readonly Ring[]; readonly areaM2: number } | null,
  areaOf: ReadonlyMap<string, number>,
): Plot[] {
  const own = group.map((k) => footprints[k]!)
  const expectedKg = own.reduce((sum, { expectedKg }) => sum + expectedKg, 0)
  if (!(expectedKg > 0)) return []
  const [first] = own
  const plantings = own.flatMap(({ planting }) => planting ?? [])
  const [x, y] = ringsCentroid(bed ? bed.rings : first!.rings)
  const areaM2 = bed ? bed.areaM2 : areaOf.get(first!.planting!)!
  const kg = own.reduce((sum, { kg }) => sum + kg, 0)
  return [{ season: first!.season, bed: first!.bed, footprints: group, plantings, areaM2, x, y, kg, expectedKg }]
}
