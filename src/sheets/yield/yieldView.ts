import type { Feature, MultiPolygon, Polygon } from 'geojson'

export type Area = Polygon | MultiPolygon

/** A cell of the surface in one bed: as picked, and smoothed. Index null where nothing was expected. */
export interface CellView {
  readonly bed: string
  readonly areaM2: number
  readonly kg: number
  readonly kgPerM2: number
  readonly index: number | null
}

/** A stretch of bed in the search for hot and cold: z of Gi*, and q, its false discovery rate; null where too little is known. */
export interface StretchView {
  readonly bed: string
  readonly standing: { readonly z: number; readonly p: number; readonly q: number } | null
}

export interface BedView {
  readonly id: string
  readonly kg: number
  readonly kgPerM2: number
  readonly kgPerRowM: number | null
  readonly index: number | null
  readonly q: number | null
}

export interface ZoneView {
  readonly id: string
  readonly areaM2: number
  readonly index: number
  readonly shortfallKg: number
  readonly beds: readonly string[]
  readonly outline: Area
}

/** A season's yield as the sheet shows it: SI, lon/lat. */
export interface YieldView {
  readonly season: number
  readonly cellM: number
  readonly smoothM: number
  readonly alpha: number
  readonly totalKg: number
  readonly areaM2: number
  readonly kgPerM2: number | null
  readonly bedsPicked: number
  readonly cells: readonly Feature<Area, CellView>[]
  readonly stretches: readonly Feature<Area, StretchView>[]
  readonly beds: readonly BedView[]
  readonly zones: readonly ZoneView[]
  /** Why hot and cold can't be told from chance; null where they can. */
  readonly tooLittle: string | null
  readonly notes: readonly string[]
}
