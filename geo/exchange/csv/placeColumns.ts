import type { Geometry } from 'geojson'
import { shown } from '../faults.ts'
import { numberOf } from '../layers/takeValue.ts'
import { parseWkt } from './parseWkt.ts'
import { readPair } from './readPair.ts'

/** Where a table has its coordinates: a column of well-known text, one of pairs, or two. */
export type PlaceColumns =
  | { readonly by: 'wkt'; readonly at: readonly [number]; readonly inDegrees: false }
  | {
      readonly by: 'both'
      readonly at: readonly [number]
      /** The longitude stands first in the cell. */
      readonly eastFirst: boolean
      readonly inDegrees: boolean
    }
  | {
      readonly by: 'pair'
      /** Indexes of east and north. */
      readonly at: readonly [number, number]
      /** True where their names and values leave no doubt that they are longitude and latitude. */
      readonly inDegrees: boolean
    }

/** What a line says of its place, before the grid is known. */
export type RawPlace =
  | { readonly geometry: Geometry | null; readonly srid?: number | null }
  | { readonly reason: string }

/** Reads one line's place; null where its cells are empty, a reason where they can't be read. */
export function rawPlace(cells: readonly string[], place: PlaceColumns): RawPlace {
  const told = place.at.map((i) => (cells[i] ?? '').trim())
  if (told.every((cell) => cell === '')) return { geometry: null }
  if (place.by === 'wkt') return parseWkt(told[0]!)
  if (place.by === 'both') {
    const pair = readPair(told[0]!)
    if (!pair) return { reason: `has ${shown(told[0])}, which is not a pair of coordinates` }
    const [first, second] = pair.numbers
    return { geometry: { type: 'Point', coordinates: place.eastFirst ? [first, second] : [second, first] } }
  }
  const numbers = told.map(numberOf)
  const unread = numbers.indexOf(null)
  if (unread >= 0)
    return {
      reason:
        told[unread] === ''
          ? 'has only one of two coordinates'
          : `has the coordinate ${shown(told[unread])}, which is not a number`,
    }
  return { geometry: { type: 'Point', coordinates: numbers as number[] } }
}

/** Which columns were taken as coordinates, in words. */
export function takenWords(names: readonly string[], place: PlaceColumns): string | null {
  if (place.by === 'wkt') return null
  const [first, second] = place.at.map((i) => shown(names[i]))
  if (place.by === 'both') {
    const order = place.eastFirst ? 'longitude, then latitude' : 'latitude, then longitude'
    return `its coordinates are taken from the column ${first}: ${order}`
  }
  const [north, east] = place.inDegrees ? ['latitude', 'longitude'] : ['north', 'east']
  return `its coordinates are taken from the columns ${second} (${north}) and ${first} (${east})`
}
