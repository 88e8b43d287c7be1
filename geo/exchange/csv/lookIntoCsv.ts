import type { Fault } from '../archive.ts'
import type { How } from '../driver.ts'
import { decodeLegacy } from '../layers/decodeLegacy.ts'
import type { Found, FoundFeature, FoundTable } from '../layers/found.ts'
import { gridFor } from '../layers/gridFor.ts'
import { NO_SHAPE, type Placed, placeShape } from '../layers/placeShape.ts'
import { type CsvLine, flawLines, parseCsv } from '../parseCsv.ts'
import { type FoundPlace, findPlace } from './findPlace.ts'
import { rawPlace, takenWords } from './placeColumns.ts'

const BREATH = 5000

/**
 * Lines of a table with coordinates: a column of well-known text, one of pairs, or two of east and north (lon and lat, x and
 * y), known by their names or chosen. Cells may be parted by commas, semicolons, tabs or bars, and decimals by commas where
 * cells are not.
 */
export async function lookIntoCsv(bytes: Uint8Array, how: How): Promise<Found> {
  const file = how.fileName
  const notes: Fault[] = []
  const note = (record: string, field: string, reason: string) => notes.push({ file, record, field, reason })
  const nothing = (asksGrid = false, table?: FoundTable): Found => ({
    layers: [],
    notes,
    asksGrid,
    ...(table && { table }),
  })
  const { text, assumed } = decodeLegacy(bytes)
  if (assumed) note('', '', `is not UTF-8; taken for ${assumed}`)
  if (text.includes('\0')) {
    note('', '', 'is no text')
    return nothing()
  }
  const { lines, flaws } = parseCsv(text, delimiterOf(text))
  for (const flaw of flaws) note(flawLines(flaw), '', flaw.reason)
  const [head, ...body] = lines
  if (!head) {
    note('', '', 'has no header line')
    return nothing()
  }
  const names = columnNames(head, (field, reason) => note(`line ${head.line}`, field, reason))
  const sought = findPlace(names, body, how)
  const { place } = sought
  const table = tableOf(names, body, sought)
  if (sought.why !== null) note(`line ${head.line}`, '', sought.why)
  if (!place) return nothing(sought.asksGrid, table)
  const raws = body.map(({ cells }) => rawPlace(cells, place))
  const srid = raws.map((raw) => ('srid' in raw ? raw.srid : null)).find((one) => one)
  const shapes = raws.map((raw) => ('geometry' in raw ? raw.geometry : null))
  const told = srid ? `EPSG:${srid}` : place.inDegrees && how.grid === null ? 'EPSG:4326' : null
  const found = gridFor(told, how.grid, shapes)
  const taken = takenWords(names, place)
  if ('unknown' in found) {
    if (taken) note(`line ${head.line}`, 'coordinates', taken)
    note('', 'crs', found.unknown)
    return nothing(true, table)
  }
  // Well-known text says what it is; columns are taken for something, which is always told.
  const assumedGrid = place.by === 'wkt' && how.grid === null && !srid ? [] : found.notes
  if (taken) note(`line ${head.line}`, 'coordinates', [taken, ...assumedGrid].join('; '))
  else for (const reason of assumedGrid) note('', 'crs', reason)
  const features: FoundFeature[] = []
  for (let i = 0; i < body.length; i++) {
    const { line, cells } = body[i]!
    if (cells.length !== names.length) {
      const many = `has ${cells.length} ${cells.length === 1 ? 'cell' : 'cells'}, the header line ${names.length}`
      note(`line ${line}`, '', `${many}: read as far as they go`)
    }
    const raw = raws[i]!
    const placed: Placed =
      'reason' in raw
        ? { geometry: null, flaws: [raw.reason] }
        : raw.geometry
          ? placeShape(raw.geometry, found.grid)
          : NO_SHAPE
    features.push(featureOf(names, cells, place.at, i + 1, line, placed))
    if (i % BREATH === 0) await how.pace(i, body.length)
  }
  const layers = features.length > 0 ? [{ name: layerName(file), file, features }] : []
  return { layers, notes, asksGrid: false, ...(table && { table }) }
}

/** The table's columns for a person to choose from; none where well-known text tells the places. */
function tableOf(
  names: readonly string[],
  body: readonly CsvLine[],
  { place, wrong }: FoundPlace,
): FoundTable | undefined {
  if (place?.by === 'wkt') return undefined
  const sample = (at: number) =>
    body
      .find(({ cells }) => cells[at]?.trim())
      ?.cells[at]?.trim()
      .slice(0, 60) ?? ''
  return {
    columns: names.map((name, at) => ({ name, sample: sample(at) })),
    taken: place && { north: names[place.at.at(-1)!]!, east: names[place.at[0]]! },
    wrong,
  }
}

const layerName = (file: string) => file.replace(/^.*[/\\]/, '').replace(/\.\w+$/, '')

function featureOf(
  names: readonly string[],
  cells: readonly string[],
  placeAt: readonly number[],
  n: number,
  line: number,
  placed: Placed,
): FoundFeature {
  const values: Record<string, unknown> = {}
  names.forEach((name, i) => {
    if (!placeAt.includes(i) && cells[i]) values[name] = cells[i]
  })
  const id = typeof values.id === 'string' ? ` (${values.id})` : ''
  return { n, where: `line ${line}${id}`, id: null, ...placed, values }
}

/** The sign that parts the header's cells: the one that stands in it most often outside of quotes. */
function delimiterOf(text: string): ',' | ';' | '\t' | '|' {
  const end = text.search(/[\r\n]/)
  const head = (end < 0 ? text : text.slice(0, end)).replace(/"[^"]*"/g, '')
  const signs = [',', ';', '\t', '|'] as const
  const counted = signs.map((sign) => ({ sign, count: head.split(sign).length - 1 }))
  return counted.reduce((most, one) => (one.count > most.count ? one : most)).sign
}

function columnNames({ cells }: CsvLine, note: (field: string, reason: string) => void): string[] {
  const seen = new Set<string>()
  return cells.map((cell, i) => {
    const told = cell.trim() || `column ${i + 1}`
    let name = told
    for (let more = 2; seen.has(name); more++) name = `${told}_${more}`
    if (name !== told) note(told, `stands twice in the header line; the later is read as ${name}`)
    seen.add(name)
    return name
  })
}
