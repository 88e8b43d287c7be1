import type { MultiPolygon, Polygon } from 'geojson'
import type { YieldReport } from './yieldReport.ts'

/** What `selion yield --json` prints: unrounded SI. */
export type YieldJson = {
  readonly total_kg: number
  readonly cell_m: number
  readonly cells: number
  readonly cells_kg: number
  readonly area_m2: number
  readonly kg_per_m2: number | null
  readonly beds: readonly {
    readonly id: string
    readonly kg: number
    readonly kg_per_m2: number
    readonly kg_per_row_m: number | null
    readonly index: number | null
    readonly gi_star: number | null
    readonly p: number | null
    readonly q: number | null
  }[]
  readonly zones: readonly {
    readonly area_m2: number
    readonly index: number
    readonly shortfall_kg: number
    readonly beds: readonly string[]
    readonly geometry: Polygon | MultiPolygon
    /** Metres of row that would give the shortfall if they gave what was expected of the zone's own. */
    readonly shortfall_row_m: number
  }[]
  /** The season, of several taken together the last, and all of them. */
  readonly season: number
  readonly seasons: readonly number[]
}

/** The report as the command line tells it; `outlines` are those of its zones, in lon/lat, in the same order. */
export function yieldJson(report: YieldReport, outlines: readonly (Polygon | MultiPolygon)[]): YieldJson {
  return {
    total_kg: report.totalKg,
    cell_m: report.settings.cellM,
    cells: report.pieces.pieces.length,
    cells_kg: report.smooth.kg.reduce((sum, kg) => sum + kg, 0),
    area_m2: report.areaM2,
    kg_per_m2: report.kgPerM2,
    beds: report.beds.map(({ id, kg, kgPerM2, kgPerRowM, index, standing }) => ({
      id,
      kg,
      kg_per_m2: kgPerM2,
      kg_per_row_m: kgPerRowM,
      index,
      gi_star: standing?.z ?? null,
      p: standing?.p ?? null,
      q: standing?.q ?? null,
    })),
    zones: report.zones.map(({ areaM2, index, shortfallKg, shortfallRowM, beds }, k) => ({
      area_m2: areaM2,
      index,
      shortfall_kg: shortfallKg,
      beds: beds.map((b) => report.beds[b]!.id),
      geometry: outlines[k]!,
      shortfall_row_m: shortfallRowM,
    })),
    season: report.season,
    seasons: report.seasons,
  }
}
