import { lonWithin180 } from '../plane/lonLat.ts'
import type { Plane } from '../plane/plane.ts'
import { nearLonLat } from './nearLonLat.ts'
import { type SurfaceCell, surfaceCell } from './surfaceGeoJson.ts'
import type { YieldReport } from './yieldReport.ts'

const TOLD = [
  'area_m2',
  'kg',
  'kg_per_m2',
  'index',
  'smooth_kg',
  'smooth_kg_per_m2',
  'smooth_index',
] as const satisfies readonly (keyof SurfaceCell)[]

/** The yield surface as lines of a table, its head first: a cell's bed, the lon/lat of its middle, and what it tells. */
export function surfaceTable(report: YieldReport, plane: Plane): (string | number | null)[][] {
  const toLonLat = nearLonLat(plane)
  const lines = report.pieces.pieces.map(({ bed, x, y, areaM2 }, at) => {
    const [lon, lat] = toLonLat(x, y)
    const cell = surfaceCell(report, report.ground[bed]!.id, at, areaM2)
    return [cell.bed, lonWithin180(lon), lat, ...TOLD.map((name) => cell[name])]
  })
  return [['bed', 'lon', 'lat', ...TOLD], ...lines]
}
