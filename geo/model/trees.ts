import { day, notNegative, oneOf, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

/** A woody plant that stays. Height and canopy radius are as measured on `measured`. */
export const trees = kind(
  'trees',
  'trees.geojson',
  {
    id: text(),
    species: text(),
    name: optional(text()),
    planted: optional(day()),
    removed: optional(day()),
    height_m: optional(notNegative()),
    canopy_radius_m: optional(notNegative()),
    measured: optional(day()),
    rootstock: optional(text()),
    juglone: optional(oneOf('source', 'none')),
  },
  { shapes: ['Point'] },
)
export type Tree = RecordOf<typeof trees>
