import type { How } from '../driver.ts'
import type { CsvLine } from '../parseCsv.ts'
import { chosenColumns } from './chosenColumns.ts'
import { namedColumns } from './namedColumns.ts'
import type { PlaceColumns } from './placeColumns.ts'

const WKT = /^\s*(?:SRID\s*=\s*\d+\s*;)?\s*(?:MULTI)?(?:POINT|LINESTRING|POLYGON|GEOMETRYCOLLECTION)\b/i
/** Lines that are looked at for well-known text. */
const LOOKED_AT = 50

/** Where a table has its coordinates, or what is to be said where that is not found. */
export interface FoundPlace {
  readonly place: PlaceColumns | null
  /** Why there is none, or null. */
  readonly why: string | null
  /** What is wrong with the columns that a person chose. */
  readonly wrong: { readonly north: string | null; readonly east: string | null }
  readonly asksGrid: boolean
}

const NOTHING_WRONG = { north: null, east: null }

/** Finds the columns of coordinates: those chosen, else one of well-known text, else those known by their names and values. */
export function findPlace(
  names: readonly string[],
  body: readonly CsvLine[],
  { columns, grid }: Pick<How, 'columns' | 'grid'>,
): FoundPlace {
  if (columns) {
    const { place, wrong, asksGrid } = chosenColumns(names, body, columns, grid)
    return { place, why: place ? null : 'the columns chosen for its coordinates can’t be read', wrong, asksGrid }
  }
  const first = body.slice(0, LOOKED_AT)
  const wkt = names.findIndex((_, i) => first.some(({ cells }) => WKT.test(cells[i] ?? '')))
  if (wkt >= 0)
    return { place: { by: 'wkt', at: [wkt], inDegrees: false }, why: null, wrong: NOTHING_WRONG, asksGrid: false }
  const named = namedColumns(names, body, grid)
  if (named && 'place' in named) return { place: named.place, why: null, wrong: NOTHING_WRONG, asksGrid: false }
  const looked = 'lon and lat, x and y, one of both, or one of well-known text (WKT) are looked for'
  const why = `has no columns of coordinates: ${named ? `${named.why}; ` : ''}${looked}`
  return { place: null, why, wrong: NOTHING_WRONG, asksGrid: named?.asksGrid ?? false }
}
