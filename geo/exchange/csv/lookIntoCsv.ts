import type { Geometry } from 'geojson'
import type { Fault } from '../archive.ts'
import type { How } from '../driver.ts'
import { shown } from '../faults.ts'
import { decodeLegacy } from '../layers/decodeLegacy.ts'
import type { Found, FoundFeature } from '../layers/found.ts'
import { gridFor } from '../layers/gridFor.ts'
import { NO_SHAPE, type Placed, placeShape } from '../layers/placeShape.ts'
import { numberOf } from '../layers/takeValue.ts'
import { type CsvLine, parseCsv } from '../parseCsv.ts'
import { parseWkt } from './parseWkt.ts'

const BREATH = 5000
const EAST = ['lon', 'long', 'lng', 'longitude', 'x', 'easting', 'east', 'e', 'x_coord', 'point_x', 'coord_x']
const NORTH = ['lat', 'latitude', 'y', 'northing', 'north', 'n', 'y_coord', 'point_y', 'coord_y']
const WKT = /^\s*(?:SRID\s*=\s*\d+\s*;)?\s*(?:MULTI)?(?:POINT|LINESTRING|POLYGON|GEOMETRYCOLLECTION)\b/i

/** What a line says of its place, before the grid is known. */
type Raw = { readonly geometry: Geometry | null } | { readonly reason: string }

/**
 * Lines of a table with coordinates: a column of well-known text, or two of east and north (lon and lat, x and y). Cells may
 * be parted by commas, semicolons, tabs or bars, and decimals by commas where cells are not.
 */
export async function lookIntoCsv(bytes: Uint8Array, how: How): Promise<Found> {
  const file = how.fileName
  const notes: Fault[] = []
  const note = (record: string, field: string, reason: string) => notes.push({ file, record, field, reason })
  const nothing = (asksGrid = false): Found => ({ layers: [], notes, asksGrid })
  const { text, assumed } = decodeLegacy(bytes)
  if (assumed) note('', '', `is not UTF-8; taken for ${assumed}`)
  if (text.includes('\0')) {
    note('', '', 'is no text')
    return nothing()
  }
  const { lines, flaws } = parseCsv(text, delimiterOf(text))
  for (const { line, reason } of flaws) note(`line ${line}`, '', reason)
  const [head, ...body] = lines
  if (!head) {
    note('', '', 'has no header line')
    return nothing()
  }
  const names = columnNames(head, (field, reason) => note(`line ${head.line}`, field, reason))
  const place = placeColumns(names, body)
  if (!place) {
    note(
      `line ${head.line}`,
      '',
      'has no columns of coordinates: lon and lat, x and y, or one of well-known text (WKT) are looked for',
    )
    return nothing()
  }
  const raws = body.map(({ cells }) => rawPlace(cells, place))
  const srid = raws.map((raw) => ('srid' in raw ? raw.srid : null)).find((one) => one !== null)
  const shapes = raws.map((raw) => ('geometry' in raw ? raw.geometry : null))
  const found = gridFor(srid ? `EPSG:${srid}` : null, how.grid, shapes)
  if ('unknown' in found) {
    note('', 'crs', found.unknown)
    return nothing(true)
  }
  const isPlainlyLonLat = /^(?:lon|lng)/i.test(names[place.at[0]!] ?? '') || place.by === 'wkt'
  for (const reason of found.notes) if (how.grid !== null || srid || !isPlainlyLonLat) note('', 'crs', reason)
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
  return { layers: features.length > 0 ? [{ name: layerName(file), file, features }] : [], notes, asksGrid: false }
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

interface PlaceColumns {
  readonly by: 'wkt' | 'pair'
  /** Indexes of the columns: one of well-known text, or east and north. */
  readonly at: readonly number[]
}

function placeColumns(names: readonly string[], body: readonly CsvLine[]): PlaceColumns | null {
  const first = body.slice(0, 50)
  const wkt = names.findIndex((_, i) => first.some(({ cells }) => WKT.test(cells[i] ?? '')))
  if (wkt >= 0) return { by: 'wkt', at: [wkt] }
  const plain = names.map((name) =>
    name
      .toLowerCase()
      .replace(/[\s-]+/g, '_')
      .replace(/_?[[(].*$/, ''),
  )
  for (const [i, east] of EAST.entries()) {
    const x = plain.indexOf(east)
    if (x < 0) continue
    const partner = NORTH.findIndex((north, j) => plain.includes(north) && isPair(i, j))
    if (partner >= 0) return { by: 'pair', at: [x, plain.indexOf(NORTH[partner]!)] }
  }
  return null
}

/** Longitude goes with latitude, x with y, east with north. */
const GROUPS_EAST = [0, 0, 0, 0, 1, 2, 2, 2, 1, 1, 1]
const GROUPS_NORTH = [0, 0, 1, 2, 2, 2, 1, 1, 1]
const isPair = (east: number, north: number) => GROUPS_EAST[east] === GROUPS_NORTH[north]

function rawPlace(cells: readonly string[], { by, at }: PlaceColumns): Raw & { readonly srid?: number | null } {
  const told = at.map((i) => (cells[i] ?? '').trim())
  if (told.every((cell) => cell === '')) return { geometry: null }
  if (by === 'wkt') return parseWkt(told[0]!)
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
