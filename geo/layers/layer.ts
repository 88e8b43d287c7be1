import type { Feature, FeatureCollection, Geometry } from 'geojson'

/** The map's layers of things, each a feature collection in lon/lat whose features carry `id` in their properties. */
export const LAYERS = [
  'fields',
  'beds',
  'rows',
  'trees',
  'canopies',
  'supports',
  'structures',
  'observations',
  'stretches',
] as const
export type LayerName = (typeof LAYERS)[number]

export interface FieldProps {
  id: string
  name: string
  area_m2: number
}
/** `standing`: made and not retired on the day shown. `stock`: nursery plants in its ground. `dressed`: when it was dressed last, within a year. */
export interface BedProps {
  id: string
  name: string
  field: string
  area_m2: number
  standing: boolean
  stock: number
  dressed: string | null
}
export interface RowProps {
  id: string
  bed: string
  name: string | null
  side: string | null
  length_m: number
}
export interface TreeProps {
  id: string
  species: string
  name: string | null
  height_m: number | null
  canopy_radius_m: number | null
  /** True where it gives off juglone, by its record, species or rootstock. */
  source: boolean
}
/** A canopy's ground (`ring: 'canopy'`) and, about a juglone source, the root reach (`ring: 'reach'`). `id` is the tree's. */
export interface CanopyProps {
  id: string
  ring: 'canopy' | 'reach'
  source: boolean
  radius_m: number
  /** True where no growth curve is published for the species, so that the radius is as last measured or assumed. */
  assumed: boolean
}
export interface SupportProps {
  id: string
  system: string
  system_name: string
  permanent: boolean
  put_up: string | null
  length_m: number
}
export interface StructureProps {
  id: string
  kind: string
  name: string | null
}
export interface ObservationProps {
  id: string
  on: string
  kind: string
  severity: number | null
}
/** A stretch of row with a planting on the day; a climbing one comes in its held and unheld pieces (`n` counts them). */
export interface StretchProps {
  id: string
  n: number
  crop: string
  crop_name: string
  variety_name: string
  family: string
  set_out: string
  climbs: boolean
  held: boolean
  length_m: number
}

export interface LayerProps {
  fields: FieldProps
  beds: BedProps
  rows: RowProps
  trees: TreeProps
  canopies: CanopyProps
  supports: SupportProps
  structures: StructureProps
  observations: ObservationProps
  stretches: StretchProps
}

export type LayerFeature<L extends LayerName = LayerName> = Feature<Geometry, LayerProps[L]>
export type Layer<L extends LayerName = LayerName> = FeatureCollection<Geometry, LayerProps[L]>
