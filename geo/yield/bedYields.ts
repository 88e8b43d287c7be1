import type { Footprint } from './footprints.ts'
import type { Standing } from './hotAndCold.ts'
import type { LaidBed, PlantingStrip } from './plantingStrips.ts'
import { yieldIndex } from './yieldIndex.ts'

/** What a bed gave in the season; over several seasons mass and row metres are sums, mass on its area a season's mean. */
export type BedYield = {
  readonly id: string
  readonly areaM2: number
  readonly kg: number
  /** Over the bed's whole area. */
  readonly kgPerM2: number
  /** Length of row that carried a planting in the season, each metre once; 0 where none did. */
  readonly rowM: number
  readonly kgPerRowM: number | null
  /** Of what counts to a crop, and what was expected of it; null where nothing was expected. */
  readonly countedKg: number
  readonly expectedKg: number
  readonly index: number | null
  readonly standing: Standing | null
}

export function bedYields(
  beds: readonly LaidBed[],
  footprints: readonly Footprint[],
  stripsBySeason: readonly (readonly PlantingStrip[])[],
  standings: readonly (Standing | null)[],
): BedYield[] {
  const kg = new Float64Array(beds.length)
  const counted = new Float64Array(beds.length)
  const expected = new Float64Array(beds.length)
  for (const footprint of footprints) {
    kg[footprint.bed]! += footprint.kg
    expected[footprint.bed]! += footprint.expectedKg
    if (footprint.plantingsOfCrop > 0) counted[footprint.bed]! += footprint.kg
  }
  const rowM = new Float64Array(beds.length)
  for (const strips of stripsBySeason) addPlantedRowM(rowM, strips)
  return beds.map((bed, b) => ({
    id: bed.id,
    areaM2: bed.areaM2,
    kg: kg[b]!,
    kgPerM2: kg[b]! / bed.areaM2 / stripsBySeason.length,
    rowM: rowM[b]!,
    kgPerRowM: rowM[b]! > 0 ? kg[b]! / rowM[b]! : null,
    countedKg: counted[b]!,
    expectedKg: expected[b]!,
    index: yieldIndex(counted[b]!, expected[b]!),
    standing: standings[b]!,
  }))
}

/** Row metres planted in each bed in a season; a metre that carried one planting after another counts once. */
function addPlantedRowM(rowM: Float64Array, strips: readonly PlantingStrip[]): void {
  const rows = new Map<string, PlantingStrip[]>()
  for (const strip of strips) {
    const key = `${strip.bed} ${strip.planting.row ?? ''}`
    const list = rows.get(key)
    if (list === undefined) rows.set(key, [strip])
    else list.push(strip)
  }
  for (const onRow of rows.values()) {
    let reached = 0
    for (const { bed, fromM, toM } of onRow.sort((a, b) => a.fromM - b.fromM)) {
      rowM[bed]! += Math.max(0, toM - Math.max(fromM, reached))
      reached = Math.max(reached, toM)
    }
  }
}
