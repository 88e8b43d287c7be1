import type { Pace } from '../store/pace.ts'
import type { FarmContent, Fault } from './archive.ts'
import type { Found, PlaceChoice } from './layers/found.ts'

/** What a file gave: the farm, or null where nothing of it can be used; and what was left out or assumed, and why. */
export interface Brought {
  readonly content: FarmContent | null
  readonly notes: readonly Fault[]
}

/** A file in a format, and what the format could not hold of the farm. */
export interface Written {
  readonly bytes: Uint8Array
  readonly notes: readonly Fault[]
}

export type FormatName = 'archive zip' | 'geojson' | 'kml' | 'kmz' | 'gpx' | 'shapefile' | 'csv' | 'geopackage'

/** What reading and writing a file may need. */
export interface How {
  /** Named in faults and notes. */
  readonly fileName: string
  /** An EPSG code or PROJ string for coordinates whose grid the file does not tell, or tells in vain. */
  readonly grid: string | null
  /** The columns of a table that hold its coordinates; null: those known by their names. */
  readonly columns: PlaceChoice | null
  readonly pace: Pace
  /** Where SQLite's WebAssembly lies; null: beside its module, as in Node. */
  readonly sqliteUrl: string | null
}

/** One format that a farm comes in and goes out by. */
export interface Driver {
  readonly name: FormatName
  /** In words, for a person to choose by. */
  readonly title: string
  /** Endings of its files' names; the first is given to what is written. */
  readonly endings: readonly [string, ...string[]]
  readonly mediaType: string
  /** What a file of another program holds, before anybody says what is what; null for the archive, which says it itself. */
  readonly look: ((bytes: Uint8Array, how: How) => Promise<Found>) | null
  /** A farm of its own from a file, every layer taken for what it most likely is. */
  read(bytes: Uint8Array, how: How): Promise<Brought>
  write(content: FarmContent, how: How): Promise<Written>
}
