import { kgPerUnit } from '../model/weigh.ts'
import type { Tells } from './columns.ts'
import { type Named, namedBy, suggestionsFor } from './matchName.ts'
import {
  type FarmNames,
  type LineFault,
  type Matched,
  meantKey,
  type NotebookPick,
  type NotebookRead,
  type Unmatched,
  type Ways,
} from './notebook.ts'
import { placeOfLine } from './placeOfLine.ts'
import { readDay } from './readDay.ts'
import { readQuantity } from './readQuantity.ts'
import { readUnit } from './readUnit.ts'
import type { SplitTable } from './splitTable.ts'
import { fromSpreadsheet } from './spreadsheetCell.ts'

type Row = SplitTable['rows'][number]
type Asks = NotebookRead['asks'][number]

/** What goes wrong with a line, and what of the notebook as a whole would have to be known. */
class LineTrouble extends Error {
  readonly asks: Asks | null
  constructor(reason: string, asks: Asks | null = null) {
    super(reason)
    this.asks = asks
  }
}

/**
 * Reads a notebook's lines as picks of the farm. Every line gives a pick (or several, divided) or a fault that names the
 * line. Names that the farm does not know are gathered with suggestions; their lines are at fault until they are matched.
 */
export function readNotebook(table: SplitTable, farm: FarmNames, ways: Ways): NotebookRead {
  const picks: NotebookPick[] = []
  const faults: LineFault[] = table.flaws.map(({ line, reason }) => ({ line, reason }))
  const asks = new Set<Asks>()
  const names = gatherNames(farm, ways)
  const there = ways.again === 'keep' ? null : new Set(farm.picks.map(pickKey))
  const rows = ways.hasHead ? table.rows.slice(1) : table.rows
  for (const row of rows) {
    try {
      const read = readLine(row, farm, ways, names)
      if (there && read.every((pick) => there.has(pickKey(pick))))
        throw new LineTrouble('is there already, told the same')
      picks.push(...read)
    } catch (error) {
      if (!(error instanceof LineTrouble)) throw error
      if (error.asks) asks.add(error.asks)
      faults.push({ line: row.line, reason: error.message })
    }
  }
  faults.sort((a, b) => a.line - b.line)
  return { picks, faults, unmatched: names.unmatched(), asks: [...asks], lines: rows.length + table.flaws.length }
}

const pickKey = (pick: { on: string; planting: string | null; bed: string | null; quantity: number; unit: string }) =>
  JSON.stringify([pick.on, pick.planting, pick.bed, Number(pick.quantity.toFixed(6)), pick.unit])

function readLine(row: Row, farm: FarmNames, ways: Ways, names: Names): NotebookPick[] {
  const cell = (tells: Tells): string | null => {
    const at = ways.columns[tells]
    const text = at === undefined ? '' : fromSpreadsheet(row.cells[at] ?? '')
    return text === '' ? null : text
  }
  const day = cell('day')
  if (day === null) throw new LineTrouble('tells no day')
  const read = readDay(day, ways)
  if ('reason' in read) throw new LineTrouble(read.reason, read.asks ?? null)
  const on = read.day
  const { quantity, unit } = howMuch(cell('quantity'), cell('unit'), farm, ways, names)
  const crop = names.idOf('crop', cell('crop'), farm.crops)
  const ofCrop = crop === null ? farm.varieties : farm.varieties.filter((one) => one.crop === crop)
  const places = placeOfLine(
    {
      on,
      crop,
      variety: names.idOf('variety', cell('variety'), ofCrop),
      bed: names.idOf('bed', cell('bed'), farm.beds),
      planting: cell('planting'),
      row: cell('row'),
      lon: degrees(cell('lon'), 180),
      lat: degrees(cell('lat'), 90),
    },
    farm,
    ways,
  )
  if ('reason' in places) throw new LineTrouble(places.reason)
  const kg = kgPerUnit(unit, places[0]!.crop, farm.containers)
  if (kg === null) throw new LineTrouble(`a ${unit} of that has no weight yet: add the container first`)
  const lost = places[0]!.planting === null && cell('crop') !== null ? cell('crop') : null
  const note = [cell('note'), lost].filter((words) => words !== null).join('; ')
  return places.map(({ part, ...place }) => ({
    line: row.line,
    on,
    ...place,
    quantity: quantity * part,
    unit,
    kgPerUnit: kg,
    grade: cell('grade'),
    picker: cell('picker'),
    note: note === '' ? null : note,
    to: cell('to'),
    use: cell('use'),
  }))
}

function howMuch(told: string | null, unitTold: string | null, farm: FarmNames, ways: Ways, names: Names) {
  if (told === null) throw new LineTrouble('tells no quantity')
  const read = readQuantity(told, ways.decimal)
  if ('reason' in read) throw new LineTrouble(read.reason, read.asks ?? null)
  const word = unitTold ?? (read.words === '' ? ways.unit : read.words)
  if (word === null) throw new LineTrouble('tells no unit', 'unit')
  const unit = names.unitOf(word, [...new Set(farm.containers.map((one) => one.unit))])
  return { quantity: read.quantity, unit }
}

function degrees(told: string | null, most: number): number | null {
  if (told === null) return null
  const value = Number(told.replace(',', '.'))
  if (!Number.isFinite(value) || Math.abs(value) > most) throw new LineTrouble(`“${told}” is not a place in degrees`)
  return value
}

interface Names {
  idOf(of: Matched, told: string | null, known: readonly Named[]): string | null
  unitOf(told: string, containers: readonly string[]): string
  unmatched(): Unmatched[]
}

/** Matches names, those matched by hand first, and gathers those that can't be. */
function gatherNames(farm: FarmNames, { meant }: Ways): Names {
  const missed = new Map<string, { of: Matched; told: string; lines: number }>()
  const known: Readonly<Record<Matched, readonly Named[]>> = {
    crop: farm.crops,
    variety: farm.varieties,
    bed: farm.beds,
    unit: [...new Set(['kg', 'g', 'lb', 'oz', ...farm.containers.map(({ unit }) => unit)])].map((unit) => ({
      id: unit,
      name: unit,
    })),
  }
  const miss = (of: Matched, told: string): never => {
    const key = meantKey(of, told)
    missed.set(key, { of, told, lines: (missed.get(key)?.lines ?? 0) + 1 })
    throw new LineTrouble(`the farm knows no ${of} “${told}”`)
  }
  return {
    idOf: (of, told, among) => {
      if (told === null) return null
      return meant.get(meantKey(of, told)) ?? namedBy(told, among)?.id ?? miss(of, told)
    },
    unitOf: (told, containers) => meant.get(meantKey('unit', told)) ?? readUnit(told, containers) ?? miss('unit', told),
    unmatched: () =>
      [...missed.values()]
        .sort((a, b) => b.lines - a.lines)
        .map((one) => ({ ...one, suggestions: suggestionsFor(one.told, known[one.of]) })),
  }
}
