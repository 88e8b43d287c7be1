import { signal } from '@preact/signals'
import { METRES_PER_FOOT, type Units } from '../../show/figures.ts'
import { readNumber } from '../formValues.ts'

/** What is typed for laying out, as text, by entry. It stays from one field to the next. */
export type PlanTyped = Readonly<Record<PlanEntry, string>>
export type PlanEntry =
  | 'along'
  | 'bearing'
  | 'by'
  | 'width'
  | 'count'
  | 'path'
  | 'headland'
  | 'headlandWhere'
  | 'begin'
  | 'pieces'
  | 'least'
  | 'length'
  | 'trees'
  | 'structures'
  | 'beds'
  | 'made'
  | 'prefix'
  | 'start'
  | 'digits'
  | 'counting'
  | 'rowsBy'
  | 'rowCount'
  | 'rowSpacing'
  | 'rowEdge'
  | 'rowEnd'
  | 'rowLeft'
  | 'rowMiddle'
  | 'rowRight'
  | 'rowJoin'

/** Usual sizes of hand-worked market beds to begin with, in round numbers of the person's unit. */
const BEGIN: Readonly<Record<Units, PlanTyped>> = {
  metric: begin({
    width: '0.75',
    path: '0.45',
    headland: '1',
    least: '3',
    trees: '1',
    structures: '1',
    beds: '0.45',
    rowSpacing: '0.25',
    rowEdge: '0.12',
    rowEnd: '0.2',
  }),
  us: begin({
    width: '2.5',
    path: '1.5',
    headland: '3',
    least: '10',
    trees: '3',
    structures: '3',
    beds: '1.5',
    rowSpacing: '0.8',
    rowEdge: '0.4',
    rowEnd: '0.5',
  }),
}

function begin(sizes: Partial<Record<PlanEntry, string>>): PlanTyped {
  return {
    along: 'edge',
    bearing: '',
    by: 'width',
    width: '',
    count: '10',
    path: '',
    headland: '',
    headlandWhere: 'all round',
    begin: 'left',
    pieces: 'longest',
    least: '',
    length: '',
    trees: '',
    structures: '',
    beds: '',
    made: '',
    prefix: '',
    start: '1',
    digits: '1',
    counting: 'left',
    rowsBy: 'none',
    rowCount: '2',
    rowSpacing: '',
    rowEdge: '',
    rowEnd: '',
    rowLeft: 'yes',
    rowMiddle: '',
    rowRight: 'yes',
    rowJoin: '-',
    ...sizes,
  }
}

export const planTyped = signal<PlanTyped | null>(null)
let typedIn: Units | null = null

/** What is typed, in the person's unit; begun anew where the unit is another than it was typed in. */
export function typedFor(units: Units): PlanTyped {
  if (typedIn !== units || !planTyped.peek()) planTyped.value = BEGIN[units]
  typedIn = units
  return planTyped.value!
}

export function typePlan(entry: PlanEntry, value: string): void {
  if (planTyped.value) planTyped.value = { ...planTyped.value, [entry]: value }
}

export type PlanFaults = Partial<Record<PlanEntry, string>>

/** Reads entries one after another; what is wrong with one is noted in `faults`, and something sound stands for it. */
export function planReader(typed: PlanTyped, units: Units) {
  const faults: PlanFaults = {}
  const number = (entry: PlanEntry, low: number, lowWords: string, empty: number | null): number => {
    const text = typed[entry].trim()
    if (text === '' && empty !== null) return empty
    const value = readNumber(text)
    if (value === null) faults[entry] = text === '' ? 'It is needed.' : `“${text}” is not a number.`
    else if (value < low) faults[entry] = lowWords
    else return value
    return low
  }
  const metres = units === 'us' ? METRES_PER_FOOT : 1
  return {
    faults,
    /** A length in metres, not below zero; `empty` where nothing is typed. */
    lengthM: (entry: PlanEntry, empty: number | null = null) =>
      number(entry, 0, 'It can’t be below zero.', empty) * metres,
    /** A length above zero: 1 cm at least. */
    sizeM: (entry: PlanEntry) => number(entry, 0.01, 'It must be above zero.', null) * metres,
    degrees: (entry: PlanEntry) => number(entry, -360, 'A bearing goes from 0 to 360.', null),
    whole(entry: PlanEntry, low: number, high: number): number {
      const value = number(entry, low, `It must be ${low} or more.`, null)
      if (Number.isInteger(value) && value <= high) return value
      faults[entry] ??= Number.isInteger(value)
        ? `It can’t be above ${high.toLocaleString()}.`
        : 'It must be a whole number.'
      return low
    },
  }
}
