import { shown } from '../faults.ts'
import type { CsvLine } from '../parseCsv.ts'
import { FINE, isDegreePair, isFine, isNumber, isWithin, mostlyNot, type Told, toldIn } from './columnValues.ts'
import type { PlaceColumns } from './placeColumns.ts'
import { type Family, type NamedPlace, namedPair, namedPlace } from './placeNames.ts'

interface Candidate {
  readonly north: number
  readonly east: number
  readonly family: Family
  /** The less, the rather: by family, then by whether the names hold nothing else, then as they stand. */
  readonly rank: number
}

/** What was found by names: the columns, or why those that are named so were not taken; null: none is. */
export type ByName = { readonly place: PlaceColumns } | Refused | null

interface Refused {
  readonly why: string
  /** True where they may be metres in a grid that is not told. */
  readonly asksGrid: boolean
}

const FAMILIES: readonly Family[] = ['degrees', 'xy', 'compass', 'sizes']

/**
 * The columns that hold coordinates by their names, where what stands in them can be that: numbers, in degrees within ±90 and
 * ±180 unless a `grid` is given. Words that also mean width and length count only where they are told to a thousandth.
 */
export function namedColumns(names: readonly string[], body: readonly CsvLine[], grid: string | null): ByName {
  let why: Refused | null = null
  for (const candidate of candidatesOf(names)) {
    const amiss = whyNot(candidate, names, body, grid)
    if (amiss === null) return { place: placeOf(candidate) }
    why ??= amiss
  }
  const both = names.findIndex((name, at) =>
    holdsBoth(
      name,
      toldIn(body, at).map(({ text }) => text),
    ),
  )
  if (both >= 0)
    return { place: { by: 'both', at: [both], eastFirst: namedPair(names[both]!).eastFirst, inDegrees: true } }
  return why
}

const placeOf = ({ north, east, family }: Candidate): PlaceColumns => ({
  by: 'pair',
  at: [east, north],
  inDegrees: family === 'degrees' || family === 'sizes',
})

function candidatesOf(names: readonly string[]): Candidate[] {
  const said = names.map(namedPlace)
  const candidates = said.flatMap((north, n) =>
    said.flatMap((east, e): Candidate[] => {
      if (north?.way !== 'north' || east?.way !== 'east' || !goTogether(north, east)) return []
      const bare = north.rest === '' && east.rest === '' ? 0 : north.isPlain && east.isPlain ? 1 : 2
      return [{ north: n, east: e, family: north.family, rank: FAMILIES.indexOf(north.family) * 3 + bare }]
    }),
  )
  return candidates.sort((a, b) => a.rank - b.rank)
}

/** Of one pair of words, with the same beside them or what says nothing; N and E alone may be of any other thing. */
function goTogether(north: NamedPlace, east: NamedPlace): boolean {
  if (north.family !== east.family) return false
  if (north.isPlain && east.isPlain) return true
  return north.rest === east.rest && north.family !== 'compass'
}

function whyNot(
  { north, east, family }: Candidate,
  names: readonly string[],
  body: readonly CsvLine[],
  grid: string | null,
): Refused | null {
  const [inNorth, inEast] = [toldIn(body, north), toldIn(body, east)]
  const has = (at: number, { text, line }: Told, what: string, asksGrid: boolean): Refused => ({
    why: `${shown(names[at])} has ${shown(text)} in line ${line}, ${what}`,
    asksGrid,
  })
  for (const [told, at] of [[inNorth, north] as const, [inEast, east] as const]) {
    const amiss = mostlyNot(told, isNumber)
    if (amiss) return has(at, amiss, 'which is not a number', false)
  }
  if (family === 'xy' || family === 'compass') return null
  if (grid === null) {
    const beyondNorth = mostlyNot(inNorth, isWithin(90))
    if (beyondNorth) return has(north, beyondNorth, 'and no latitude lies beyond ±90', true)
    const beyondEast = mostlyNot(inEast, isWithin(180))
    if (beyondEast) return has(east, beyondEast, 'and no longitude lies beyond ±180', true)
  }
  if (family === 'degrees') return null
  const coarseNorth = mostlyNot(inNorth, isFine)
  if (coarseNorth) return has(north, coarseNorth, 'which may be a width', false)
  const coarseEast = mostlyNot(inEast, isFine)
  return coarseEast && has(east, coarseEast, 'which may be a length', false)
}

/** A column of pairs: where its name does not say so they must be told to a thousandth of a degree. */
function holdsBoth(name: string, told: readonly string[]): boolean {
  if (told.length === 0) return false
  const { both, eastFirst } = namedPair(name)
  const pairs = told.filter(isDegreePair(eastFirst, both ? 0 : FINE))
  return pairs.length * 2 >= told.length
}
