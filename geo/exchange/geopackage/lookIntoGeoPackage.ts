import type { Geometry } from 'geojson'
import type { SqliteDatabase, SqliteValue } from 'sql.js'
import type { Fault } from '../archive.ts'
import type { How } from '../driver.ts'
import type { Found, FoundFeature, FoundLayer } from '../layers/found.ts'
import { gridFor } from '../layers/gridFor.ts'
import { NO_SHAPE, type Placed, placeShape } from '../layers/placeShape.ts'
import { openSqlite } from './openSqlite.ts'
import { type BlobRead, readGeoPackageBlob } from './readWkb.ts'

const BREATH = 2000
/** SQLite's files begin with these letters. */
const MAGIC = 'SQLite format 3\0'

interface Table {
  readonly name: string
  readonly geometry: string
  readonly srid: number
  readonly organization: string | null
  readonly code: number | null
  readonly definition: string | null
}

/**
 * Feature tables of a GeoPackage (OGC 12-128r18, version 1.3; older ones are read too), each brought to lon/lat. Its
 * coordinates are x before y (longitude before latitude) whatever the definition says, as the standard has it.
 */
export async function lookIntoGeoPackage(bytes: Uint8Array, how: How): Promise<Found> {
  const notes: Fault[] = []
  const note = (record: string, field: string, reason: string) =>
    notes.push({ file: how.fileName, record, field, reason })
  const layers: FoundLayer[] = []
  let asksGrid = false
  if (new TextDecoder('latin1').decode(bytes.subarray(0, 16)) !== MAGIC) {
    note('', '', 'is no GeoPackage: it is not an SQLite database')
    return { layers, notes, asksGrid }
  }
  const db = await openSqlite(bytes, how.sqliteUrl)
  try {
    db.run('pragma trusted_schema = off')
    const tables = tablesOf(db)
    if (tables.length === 0) note('', '', 'holds no layer of features')
    for (const table of tables) {
      const layer = await layerOf(db, table, how, (record, field, reason) =>
        notes.push({ file: `${how.fileName}, ${table.name}`, record, field, reason }),
      )
      if (layer === 'grid unknown') asksGrid = true
      else if (layer) layers.push(layer)
    }
  } catch (error) {
    if (!(error instanceof Error) || error instanceof DOMException) throw error
    if (!isSqliteError(error)) throw error
    note('', '', `can't be read: ${error.message}`)
  } finally {
    db.close()
  }
  return { layers, notes, asksGrid }
}

/** SQLite's own errors come as plain ones, what is wrong in this code as a type of its own. */
const isSqliteError = (error: Error) => error.constructor === Error

function rowsOf(db: SqliteDatabase, sql: string): SqliteValue[][] {
  return db.exec(sql)[0]?.values ?? []
}

function tablesOf(db: SqliteDatabase): Table[] {
  return rowsOf(
    db,
    `select c.table_name, g.column_name, g.srs_id, s.organization, s.organization_coordsys_id, s.definition
     from gpkg_contents c join gpkg_geometry_columns g on g.table_name = c.table_name
     left join gpkg_spatial_ref_sys s on s.srs_id = g.srs_id
     where c.data_type = 'features' order by c.rowid`,
  ).map(([name, geometry, srid, organization, code, definition]) => ({
    name: String(name),
    geometry: String(geometry),
    srid: Number(srid),
    organization: organization === null ? null : String(organization),
    code: code === null ? null : Number(code),
    definition: definition === null ? null : String(definition),
  }))
}

const named = (name: string) => `"${name.replaceAll('"', '""')}"`

async function layerOf(
  db: SqliteDatabase,
  table: Table,
  how: How,
  note: (record: string, field: string, reason: string) => void,
): Promise<FoundLayer | 'grid unknown' | null> {
  const info = rowsOf(db, `pragma table_info(${named(table.name)})`)
  const types = new Map(info.map(([, name, type]) => [String(name), String(type).toUpperCase()]))
  const key = info.find(([, , , , , pk]) => pk === 1)?.[1]
  const [counted] = rowsOf(db, `select count(*) from ${named(table.name)}`)
  const count = Number(counted?.[0] ?? 0)
  const read: { raw: BlobRead; values: Record<string, unknown>; fid: string | null }[] = []
  const statement = db.prepare(`select * from ${named(table.name)}`)
  try {
    const names = statement.getColumnNames()
    while (statement.step()) {
      read.push(rowOf(statement.get(), names, table, types, key === undefined ? null : String(key)))
      if (read.length % BREATH === 0) await how.pace(read.length, count)
    }
  } finally {
    statement.free()
  }
  const blobs = [...types].filter(([name, type]) => type.startsWith('BLOB') && name !== table.geometry)
  for (const [name] of blobs) note('', name, 'holds bytes, which are not taken')
  const shapes = read.map(({ raw }) => ('geometry' in raw ? raw.geometry : null))
  const found = gridFor(toldGrid(table), how.grid, shapes)
  if ('unknown' in found) {
    note('', 'crs', found.unknown)
    return 'grid unknown'
  }
  for (const reason of found.notes) note('', 'crs', reason)
  const features = read.map(({ raw, values, fid }, i): FoundFeature => {
    const id = typeof values.id === 'string' ? values.id : null
    const where = `${fid === null ? `row ${i + 1}` : `row ${fid}`}${id ? ` (${id})` : ''}`
    return { n: i + 1, where, id: null, ...placed(raw, (shape) => placeShape(shape, found.grid)), values }
  })
  return features.length > 0 ? { name: table.name, file: `${how.fileName}, ${table.name}`, features } : null
}

function placed(raw: BlobRead, place: (shape: Geometry) => Placed): Placed {
  if ('reason' in raw) return { geometry: null, flaws: [raw.reason] }
  return raw.geometry ? place(raw.geometry) : NO_SHAPE
}

/** What the table's reference system is called; null where it is the undefined one (-1 and 0). */
function toldGrid({ srid, organization, code, definition }: Table): string | null {
  if (srid === -1 || srid === 0) return null
  if (organization?.toUpperCase() === 'EPSG' && code !== null && code > 0) {
    const wkt = definition && /^(?:PROJCS|GEOGCS)/i.test(definition) ? definition : null
    return wkt ?? `EPSG:${code}`
  }
  return definition && definition !== 'undefined' ? definition : `${organization ?? ''}:${code ?? srid}`
}

function rowOf(
  cells: readonly SqliteValue[],
  names: readonly string[],
  table: Table,
  types: ReadonlyMap<string, string>,
  key: string | null,
): { raw: BlobRead; values: Record<string, unknown>; fid: string | null } {
  let raw: BlobRead = { geometry: null }
  let fid: string | null = null
  const values: Record<string, unknown> = {}
  names.forEach((name, i) => {
    const cell = cells[i]!
    if (name === table.geometry) {
      if (cell instanceof Uint8Array) raw = readGeoPackageBlob(cell)
      else if (cell !== null) raw = { reason: 'is no geometry of a GeoPackage' }
      return
    }
    if (name === key && /^(?:fid|ogc_fid|objectid)$/i.test(name)) {
      fid = String(cell)
      return
    }
    if (cell === null || cell instanceof Uint8Array) return
    values[name] = types.get(name) === 'BOOLEAN' && (cell === 0 || cell === 1) ? cell === 1 : cell
  })
  return { raw, values, fid }
}
