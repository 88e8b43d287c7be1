import { shown } from '../faults.ts'
import type { PlaceChoice } from '../layers/found.ts'
import type { CsvLine } from '../parseCsv.ts'
import { isDegreePair, isNumber, isWithin, mostlyNot, type Told, toldIn } from './columnValues.ts'
import type { PlaceColumns } from './placeColumns.ts'
import { namedPair, namedPlace } from './placeNames.ts'
import { readPair } from './readPair.ts'

/** The columns that a person chose, null where they can't be read so, and what is wrong with either. */
export interface ByChoice {
  readonly place: PlaceColumns | null
  readonly wrong: { readonly north: string | null; readonly east: string | null }
  /** True where they may be metres in a grid that is not told. */
  readonly asksGrid: boolean
}

/**
 * The columns of a table that a person chose for north and east; one chosen for both holds pairs, latitude first unless its
 * name says otherwise. `grid` null: what lies beyond ±90 or ±180 in one of them alone is told.
 */
export function chosenColumns(
  names: readonly string[],
  body: readonly CsvLine[],
  chosen: PlaceChoice,
  grid: string | null,
): ByChoice {
  const [north, east] = [names.indexOf(chosen.north), names.indexOf(chosen.east)]
  const refused = (wrongNorth: string | null, wrongEast: string | null, asksGrid = false): ByChoice => ({
    place: null,
    wrong: { north: wrongNorth, east: wrongEast },
    asksGrid,
  })
  if (north < 0 || east < 0) {
    const gone = (at: number) => (at < 0 ? 'is no column of this file' : null)
    return refused(gone(north), gone(east))
  }
  const [inNorth, inEast] = [toldIn(body, north), toldIn(body, east)]
  if (north === east) {
    const { eastFirst } = namedPair(chosen.north)
    const isPair = grid === null ? isDegreePair(eastFirst, 0) : (text: string) => readPair(text) !== null
    if (inNorth.length > 0 && !mostlyNot(inNorth, isPair))
      return {
        place: { by: 'both', at: [north], eastFirst, inDegrees: grid === null },
        wrong: { north: null, east: null },
        asksGrid: false,
      }
    return refused(null, 'is chosen for north too, and does not hold both, such as “46.3371, 15.6401”')
  }
  const [numberless, numberlessEast] = [notNumbers(inNorth), notNumbers(inEast)]
  if (numberless ?? numberlessEast) return refused(numberless, numberlessEast)
  const beyondNorth = grid === null ? mostlyNot(inNorth, isWithin(90)) : null
  const beyondEast = grid === null ? mostlyNot(inEast, isWithin(180)) : null
  if (Boolean(beyondNorth) !== Boolean(beyondEast)) {
    const swapped = beyondNorth && !mostlyNot(inNorth, isWithin(180)) && !mostlyNot(inEast, isWithin(90))
    const help = swapped ? ': are the two swapped?' : '; metres need the grid that they are in'
    return refused(
      beyondNorth && `has ${beyondNorth.text} in line ${beyondNorth.line}, and no latitude lies beyond ±90${help}`,
      beyondEast && `has ${beyondEast.text} in line ${beyondEast.line}, and no longitude lies beyond ±180${help}`,
      !swapped,
    )
  }
  return {
    place: { by: 'pair', at: [east, north], inDegrees: false },
    wrong: { north: namedOther(chosen.north, 'east'), east: namedOther(chosen.east, 'north') },
    asksGrid: false,
  }
}

const OTHER = {
  degrees: { north: 'a latitude', east: 'a longitude' },
  grid: { north: 'a north coordinate', east: 'an east coordinate' },
} as const

/** Told, and read all the same: a file may name its columns wrongly. */
function namedOther(name: string, way: 'north' | 'east'): string | null {
  const named = namedPlace(name)
  if (named?.way !== way) return null
  const words = OTHER[named.family === 'degrees' || named.family === 'sizes' ? 'degrees' : 'grid'][way]
  return `is named as ${words} is: are the two swapped?`
}

function notNumbers(told: readonly Told[]): string | null {
  if (told.length === 0) return 'has nothing in it'
  const amiss = mostlyNot(told, isNumber)
  return amiss && `has ${shown(amiss.text)} in line ${amiss.line}, which is not a number`
}
