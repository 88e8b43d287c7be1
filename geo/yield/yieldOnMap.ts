import type { Feature, MultiPolygon, Polygon } from 'geojson'
import type { Plane } from '../plane/plane.ts'
import { groundPolygon } from './groundPolygon.ts'
import type { Standing } from './hotAndCold.ts'
import { nearLonLat } from './nearLonLat.ts'
import type { OfCrops } from './ofCrops.ts'
import { pieceAt } from './pieces.ts'
import type { ReckonedYield } from './reckonYield.ts'
import { sliceGrid } from './sliceGrid.ts'
import { yieldIndex } from './yieldIndex.ts'
import type { YieldReport } from './yieldReport.ts'
import type { ZoneSurroundings } from './zoneSurroundings.ts'

type Area = Polygon | MultiPolygon

/** A cell of the surface in one bed, smoothed as asked. Index null where nothing was expected. */
export interface YieldCell {
  readonly bed: string
  readonly areaM2: number
  readonly kg: number
  readonly index: number | null
  readonly rests: CellGrounds
}

/** What a cell rests on, before it is smoothed. */
export interface CellGrounds {
  /** Picks told of ground that takes in some of the cell. */
  readonly picks: number
  /** Mass that lies on it: in all, and what of it was told of a bed as a whole or of a spot; the rest of a planting. */
  readonly kg: number
  readonly bedKg: number
  readonly spotKg: number
}

/** A stretch of bed in the search for hot and cold; standing null where nothing was expected or too little is known. */
export interface YieldStretch {
  readonly bed: string
  readonly index: number | null
  readonly standing: Standing | null
}

export interface YieldOfBed {
  readonly id: string
  readonly kg: number
  readonly kgPerM2: number
  readonly kgPerRowM: number | null
  readonly index: number | null
  readonly standing: Standing | null
}

export interface YieldZone extends ZoneSurroundings {
  /** Its place in the list, from `zone 1`. */
  readonly id: string
  readonly areaM2: number
  readonly index: number
  readonly shortfallKg: number
  /** Metres of row that would give the shortfall at what was expected here. */
  readonly shortfallRowM: number
  readonly beds: readonly string[]
}

/** A season's yield as a map and its table show it: SI, lon/lat. */
export interface YieldOnMap {
  readonly season: number
  readonly seasons: readonly number[]
  readonly of: OfCrops | null
  readonly cellM: number
  readonly smoothM: number
  readonly stretchM: number
  readonly bandM: number
  readonly alpha: number
  readonly totalKg: number
  /** Growing area of all beds. */
  readonly areaM2: number
  /** Over the beds that were picked. */
  readonly kgPerM2: number | null
  readonly bedsPicked: number
  readonly cells: readonly Feature<Area, YieldCell>[]
  readonly stretches: readonly Feature<Area, YieldStretch>[]
  readonly beds: readonly YieldOfBed[]
  /** The greatest shortfall first. */
  readonly zones: readonly YieldZone[]
  /** Moran's I of the stretches' index: whether high and low lie in patches at all. */
  readonly patches: { readonly i: number; readonly z: number; readonly p: number } | null
  /** Why hot and cold can't be told from chance, in plain words; null where they can. */
  readonly tooLittle: string | null
  readonly notes: readonly string[]
}

/** A reckoned yield brought from the farm's plane onto the map. */
export function yieldOnMap({ report, of, surroundings }: ReckonedYield, plane: Plane): YieldOnMap {
  const { beds, hotAndCold, zones } = report
  return {
    season: report.season,
    seasons: report.seasons,
    of,
    ...report.settings,
    totalKg: report.totalKg,
    areaM2: report.areaM2,
    kgPerM2: report.kgPerM2,
    bedsPicked: beds.filter((bed) => bed.kg > 0).length,
    cells: cellsOnMap(report, plane),
    stretches: stretchesOnMap(report, plane),
    beds: beds.map(({ id, kg, kgPerM2, kgPerRowM, index, standing }) => ({
      id,
      kg,
      kgPerM2,
      kgPerRowM,
      index,
      standing,
    })),
    zones: zones.map(({ areaM2, index, shortfallKg, shortfallRowM, beds: places }, k) => ({
      id: `zone ${k + 1}`,
      areaM2,
      index,
      shortfallKg,
      shortfallRowM,
      beds: places.map((b) => beds[b]!.id),
      ...surroundings[k]!,
    })),
    patches: hotAndCold.patches,
    tooLittle: hotAndCold.tooLittle,
    notes: report.notes.map((note) => note.detail),
  }
}

function cellsOnMap(
  { ground, pieces, masses, smooth, settings }: YieldReport,
  plane: Plane,
): Feature<Area, YieldCell>[] {
  const toLonLat = nearLonLat(plane)
  const cells: Feature<Area, YieldCell>[] = []
  ground.forEach((bed, b) => {
    sliceGrid(bed.rings, settings.cellM, (i, j, rings, areaM2) => {
      const at = pieceAt(pieces, b, i, j)
      const kg = smooth.kg[at]!
      const index = yieldIndex(smooth.countedKg[at]!, smooth.expectedKg[at]!)
      const rests = {
        picks: masses.picks[at]!,
        kg: masses.kg[at]!,
        bedKg: masses.bedKg[at]!,
        spotKg: masses.spotKg[at]!,
      }
      const properties = { bed: bed.id, areaM2, kg, index, rests }
      cells.push({ type: 'Feature', geometry: groundPolygon(rings, toLonLat), properties })
    })
  })
  return cells
}

function stretchesOnMap({ ground, stretches, hotAndCold }: YieldReport, plane: Plane): Feature<Area, YieldStretch>[] {
  const toLonLat = nearLonLat(plane)
  return stretches.map(({ bed, rings, kg, expectedKg }, k) => ({
    type: 'Feature',
    geometry: groundPolygon(rings, toLonLat),
    properties: {
      bed: ground[bed]!.id,
      index: yieldIndex(kg, expectedKg),
      standing: hotAndCold.stretches[k]!,
    },
  }))
}
