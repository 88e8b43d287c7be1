import { numberOf } from '../layers/takeValue.ts'
import type { CsvLine } from '../parseCsv.ts'
import { decimalsOf, readPair } from './readPair.ts'

/** So many lines are looked at to tell what a column holds. */
const LOOKED_AT = 2000

/** A cell with something in it, and the line of the file where it stands. */
export interface Told {
  readonly text: string
  readonly line: number
}

/** The cells of a column that have something in them. */
export function toldIn(body: readonly CsvLine[], at: number): Told[] {
  return body
    .slice(0, LOOKED_AT)
    .map(({ cells, line }) => ({ text: (cells[at] ?? '').trim(), line }))
    .filter(({ text }) => text !== '')
}

/** The first cell that is not so, where more than half of them are not; null where most are, or there are none. */
export function mostlyNot(told: readonly Told[], isSo: (text: string) => boolean): Told | null {
  const amiss = told.filter(({ text }) => !isSo(text))
  return amiss.length * 2 > told.length ? amiss[0]! : null
}

export const isNumber = (text: string) => numberOf(text) !== null

/** True for a number within ± `most`. */
export const isWithin = (most: number) => (text: string) => Math.abs(numberOf(text) ?? Infinity) <= most

/** Told as finely as a place must be: to a thousandth of a degree, some 100 m. Widths and lengths in metres are not. */
export const FINE = 3
export const isFine = (text: string) => decimalsOf(text) >= FINE

/** True for two numbers in one cell that may be a latitude and a longitude, in that order or the other. */
export const isDegreePair =
  (eastFirst: boolean, leastDecimals: number) =>
  (text: string): boolean => {
    const pair = readPair(text)
    if (!pair || pair.decimals < leastDecimals) return false
    const [lat, lon] = eastFirst ? [pair.numbers[1], pair.numbers[0]] : pair.numbers
    return Math.abs(lat) <= 90 && Math.abs(lon) <= 180
  }
