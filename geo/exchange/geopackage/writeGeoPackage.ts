import type { SqliteDatabase, SqliteValue } from 'sql.js'
import type { FarmContent } from '../archive.ts'
import type { How, Written } from '../driver.ts'
import { type ColumnType, type GivenLayer, givenLayers } from '../layers/givenLayers.ts'
import { rightHanded } from '../rightHanded.ts'
import { openSqlite } from './openSqlite.ts'
import { boxOf, writeGeoPackageBlob } from './writeWkb.ts'

const TYPES: Readonly<Record<ColumnType, string>> = {
  text: 'TEXT',
  number: 'DOUBLE',
  whole: 'INTEGER',
  'yes/no': 'BOOLEAN',
  day: 'DATE',
}

/** Tables that every GeoPackage has (OGC 12-128r18, version 1.3, annex C), with its marks as a file of that kind. */
const FRAME = [
  'pragma application_id = 1196444487',
  'pragma user_version = 10300',
  `create table gpkg_spatial_ref_sys (srs_name text not null, srs_id integer not null primary key,
    organization text not null, organization_coordsys_id integer not null, definition text not null, description text)`,
  `create table gpkg_contents (table_name text not null primary key, data_type text not null, identifier text unique,
    description text default '', last_change datetime not null default (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
    min_x double, min_y double, max_x double, max_y double, srs_id integer,
    constraint fk_gc_r_srs_id foreign key (srs_id) references gpkg_spatial_ref_sys(srs_id))`,
  `create table gpkg_geometry_columns (table_name text not null, column_name text not null,
    geometry_type_name text not null, srs_id integer not null, z tinyint not null, m tinyint not null,
    constraint pk_geom_cols primary key (table_name, column_name), constraint uk_gc_table_name unique (table_name),
    constraint fk_gc_tn foreign key (table_name) references gpkg_contents(table_name),
    constraint fk_gc_srs foreign key (srs_id) references gpkg_spatial_ref_sys (srs_id))`,
  `insert into gpkg_spatial_ref_sys values
    ('Undefined cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined cartesian coordinate reference system'),
    ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),
    ('WGS 84 geodetic', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]', 'longitude/latitude coordinates in decimal degrees on the WGS 84 spheroid')`,
]
/** The same farm gives the same bytes: the file has no clock in it. */
const LAST_CHANGE = '2000-01-01T00:00:00.000Z'

const named = (name: string) => `"${name.replaceAll('"', '""')}"`

/** A farm as a GeoPackage, a table a kind, in lon/lat. */
export async function writeGeoPackage(content: FarmContent, how: How): Promise<Written> {
  const db = await openSqlite(null, how.sqliteUrl)
  try {
    for (const sql of FRAME) db.run(sql)
    db.run('begin')
    for (const layer of givenLayers(content)) writeLayer(db, layer)
    db.run('commit')
    return { bytes: db.export(), notes: [] }
  } finally {
    db.close()
  }
}

function writeLayer(db: SqliteDatabase, { kind, columns, features }: GivenLayer): void {
  const types = new Set(features.map(({ geometry }) => geometry.type))
  const [only] = types
  const type = types.size === 1 && only ? only.toUpperCase() : 'GEOMETRY'
  const table = named(kind.name)
  const own = columns.map(({ name }, i) => columnName(name, i, columns))
  db.run(
    `create table ${table} (fid integer primary key autoincrement not null, geom ${type}${columns
      .map((column, i) => `, ${named(own[i]!)} ${TYPES[column.type]}`)
      .join('')})`,
  )
  const box = { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity }
  const insert = db.prepare(
    `insert into ${table} (geom${own.map((name) => `, ${named(name)}`).join('')}) values (?${', ?'.repeat(own.length)})`,
  )
  let high = 0
  for (const { geometry, values } of features) {
    const one = boxOf(geometry)
    box.west = Math.min(box.west, one.west)
    box.east = Math.max(box.east, one.east)
    box.south = Math.min(box.south, one.south)
    box.north = Math.max(box.north, one.north)
    const blob = writeGeoPackageBlob(rightHanded(geometry))
    if (hasHeights(blob)) high += 1
    insert.run([blob, ...columns.map(({ name }) => cellOf(values[name]))])
  }
  insert.free()
  const add = (sql: string, values: SqliteValue[]) => {
    const statement = db.prepare(sql)
    statement.run(values)
    statement.free()
  }
  add(
    `insert into gpkg_contents (table_name, data_type, identifier, last_change, min_x, min_y, max_x, max_y, srs_id)
     values (?, 'features', ?, ?, ?, ?, ?, ?, 4326)`,
    [kind.name, kind.name, LAST_CHANGE, box.west, box.south, box.east, box.north],
  )
  const z = high === 0 ? 0 : high === features.length ? 1 : 2
  add(`insert into gpkg_geometry_columns values (?, 'geom', ?, 4326, ?, 0)`, [kind.name, type, z])
}

/** ISO's types with heights begin at 1000; the type stands behind header, envelope and byte order. */
const hasHeights = (blob: Uint8Array) => blob[42] !== 0

/** SQLite's names know no case; `fid` and `geom` are taken. */
function columnName(name: string, i: number, columns: readonly { readonly name: string }[]): string {
  const plain = name.toLowerCase()
  const isTaken =
    plain === 'fid' || plain === 'geom' || columns.slice(0, i).some((one) => one.name.toLowerCase() === plain)
  return isTaken ? `${name}_${i + 1}` : name
}

function cellOf(value: string | number | boolean | undefined): SqliteValue {
  return value === undefined ? null : typeof value === 'boolean' ? Number(value) : value
}
