import type { Geometry } from 'geojson'
import type { Fault } from '../archive.ts'

/** One thing with a place in a file of another program, before anybody said what it is. */
export interface FoundFeature {
  /** Its number in its file or layer, from 1. */
  readonly n: number
  /** How a person finds it: `feature 3 (b1)`, `line 12`, `record 7`. */
  readonly where: string
  /** The file's own id of it, or null. */
  readonly id: string | null
  /** Lon/lat in degrees; null where there is none or none that can be used. */
  readonly geometry: Geometry | null
  /** Why there is no geometry; empty where the file simply gives none. */
  readonly flaws: readonly string[]
  /** What can be drawn of a geometry that can't be used: its lines, or its points. */
  readonly refused?: Geometry
  readonly values: Readonly<Record<string, unknown>>
}

/** Things of one sort that a file holds. */
export interface FoundLayer {
  /** As the file calls it, and what part of it where it had to be parted. */
  readonly name: string
  /** How faults name the file it came from. */
  readonly file: string
  readonly features: readonly FoundFeature[]
  /** What the format itself says that they are, where it does. */
  readonly hint?: { readonly kind: string; readonly constants: Readonly<Record<string, string>> }
}

/** What a file of another program holds. */
export interface Found {
  readonly layers: readonly FoundLayer[]
  readonly notes: readonly Fault[]
  /** True where places were left out because their grid is not known: an EPSG code or a PROJ string would help. */
  readonly asksGrid: boolean
  /** Set for a table whose coordinates do not stand in well-known text. */
  readonly table?: FoundTable
}

/** The columns of a table that a person says hold its coordinates; one that holds both stands for both. */
export interface PlaceChoice {
  readonly north: string
  readonly east: string
}

/** A table whose coordinates stand in columns of numbers. */
export interface FoundTable {
  readonly columns: readonly { readonly name: string; readonly sample: string }[]
  /** The columns that were taken; null: none is known by its name, or those chosen can't be read. */
  readonly taken: PlaceChoice | null
  /** What is wrong with the columns that were chosen. */
  readonly wrong: { readonly north: string | null; readonly east: string | null }
}
