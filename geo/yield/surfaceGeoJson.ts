import type { Feature, FeatureCollection, MultiPolygon, Polygon } from 'geojson'
import { type LonLat, lonWithin180 } from '../plane/lonLat.ts'
import type { Plane } from '../plane/plane.ts'
import { groundPolygon } from './groundPolygon.ts'
import { nearLonLat } from './nearLonLat.ts'
import { pieceAt } from './pieces.ts'
import { sliceGrid } from './sliceGrid.ts'
import { yieldIndex } from './yieldIndex.ts'
import type { YieldReport } from './yieldReport.ts'

/** What a cell of the surface tells: as the mass lies on its footprints, and smoothed as the map shows it; kg/m² a season. */
export type SurfaceCell = {
  readonly bed: string
  readonly area_m2: number
  readonly kg: number
  readonly kg_per_m2: number
  readonly index: number | null
  readonly smooth_kg: number
  readonly smooth_kg_per_m2: number
  readonly smooth_index: number | null
}

type CellFeature = Feature<Polygon | MultiPolygon, SurfaceCell>

/**
 * The yield surface as GeoJSON in lon/lat within ±180°, one feature for each cell clipped to its bed, in the order of
 * the pieces.
 */
export function surfaceGeoJson(
  report: YieldReport,
  plane: Plane,
): FeatureCollection<Polygon | MultiPolygon, SurfaceCell> {
  const features: CellFeature[] = []
  const near = nearLonLat(plane)
  const toLonLat = (x: number, y: number): LonLat => {
    const [lon, lat] = near(x, y)
    return [lonWithin180(lon), lat]
  }
  report.ground.forEach((bed, b) => {
    sliceGrid(bed.rings, report.settings.cellM, (i, j, rings, areaM2) => {
      const geometry = groundPolygon(rings, toLonLat)
      const properties = surfaceCell(report, bed.id, pieceAt(report.pieces, b, i, j), areaM2)
      features.push({ type: 'Feature', geometry, properties })
    })
  })
  return { type: 'FeatureCollection', features }
}

/** What a cell tells: its place in the list of pieces, and its area. */
export function surfaceCell(
  { masses, smooth, seasons }: YieldReport,
  bed: string,
  at: number,
  areaM2: number,
): SurfaceCell {
  const kg = masses.kg[at]!
  const smoothKg = smooth.kg[at]!
  return {
    bed,
    area_m2: areaM2,
    kg,
    kg_per_m2: kg / areaM2 / seasons.length,
    index: yieldIndex(masses.countedKg[at]!, masses.expectedKg[at]!),
    smooth_kg: smoothKg,
    smooth_kg_per_m2: smoothKg / areaM2 / seasons.length,
    smooth_index: yieldIndex(smooth.countedKg[at]!, smooth.expectedKg[at]!),
  }
}
