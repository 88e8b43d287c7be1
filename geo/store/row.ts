import type { Geometry } from 'geojson'
import { farm } from '../model/farm.ts'
import type { AnyRecord, Kind } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import { type Database, quoted } from './database.ts'
import { fromEwkb, toEwkb } from './ewkb.ts'

/** A record as JSON can carry it without loss: geometry as hex EWKB, `ord` its place among records. */
export type StoredRow = { [column: string]: unknown; id: string }

/** The columns that make up a record of a kind, `id` first. */
export function columnsOf(kind: Kind): string[] {
  const fields = Object.keys(kind.fields).filter((name) => name !== 'id')
  return ['id', ...fields, ...(kind.shapes ? ['geom'] : []), 'extra', 'ord']
}

/** SQL type of a column of a kind as `jsonb_to_recordset` takes it. */
export function sqlTypeOf(kind: Kind, column: string): string {
  if (column === 'id' || column === 'geom') return 'text'
  if (column === 'extra') return 'jsonb'
  if (column === 'ord') return 'bigint'
  const field = kind.fields[column]
  if (!field) throw new Error(`${kind.name} has no column ${JSON.stringify(column)}`)
  return field.sql
}

export function toStored(record: AnyRecord): StoredRow {
  return record.geom ? { ...record, geom: toEwkb(record.geom) } : { ...record }
}

export function fromStored(row: StoredRow): AnyRecord {
  const { ord: _, ...record } = row
  const geom = typeof row.geom === 'string' ? { geom: fromEwkb(row.geom) as Geometry } : {}
  return { ...record, ...geom } as AnyRecord
}

/** Rows of a kind as they are stored, in the order they were made; all, or those whose `by` column is one of `values`. */
export async function readStored(
  db: Database,
  kind: Kind,
  only?: { by: string; values: readonly string[] },
): Promise<StoredRow[]> {
  const columns = columnsOf(kind)
    .map((c) => (c === 'geom' ? `encode(st_asewkb(geom), 'hex') as geom` : quoted(c)))
    .join(', ')
  const where = only ? `where ${quoted(only.by)} = any($1)` : ''
  return db.rows<StoredRow>(
    `select ${columns} from ${quoted(kind.name)} ${where} order by ord`,
    only ? [[...only.values]] : [],
  )
}

/** Records of a kind, in the order they were made: all, or those whose field `by` has one of some values. */
export async function readRecords(
  db: Database,
  kind: Kind,
  only?: { by: string; values: readonly string[] },
): Promise<AnyRecord[]> {
  return (await readStored(db, kind, only)).map(fromStored)
}

const BATCH = 2000

/** Inserts rows as they are; a row without `ord` goes last. Needs `openStep` before it in the same transaction. */
export async function insertStored(tx: Database, kind: Kind, rows: readonly StoredRow[]): Promise<void> {
  const columns = columnsOf(kind)
  const shape = columns.map((c) => `${quoted(c)} ${sqlTypeOf(kind, c)}`).join(', ')
  const values = columns.map((c) => {
    if (c === 'geom') return 'x.geom::geometry'
    if (c === 'ord') return `coalesce(x.ord, nextval('record_order'))`
    if (c === 'extra') return `coalesce(x.extra, '{}'::jsonb)`
    return `x.${quoted(c)}`
  })
  const text = `insert into ${quoted(kind.name)} (${columns.map(quoted).join(', ')})
    select ${values.join(', ')} from jsonb_to_recordset($1::jsonb) as x(${shape})`
  for (let from = 0; from < rows.length; from += BATCH)
    await tx.rows(text, [JSON.stringify(rows.slice(from, from + BATCH))])
}

/** Inserts records in their order. Needs `openStep` before it in the same transaction. */
export async function insertRecords(tx: Database, kind: Kind, records: readonly AnyRecord[]): Promise<void> {
  await insertStored(tx, kind, records.map(toStored))
}

/** Allows writing to farm records until the transaction ends, in the name of a step. */
export async function openStep(tx: Database, step: string): Promise<void> {
  await tx.rows(`select set_config('selion.step', $1, true)`, [step])
}

/** Every kind with a table of its own, the farm first. */
export const TABLES: readonly Kind[] = [farm, ...KINDS]
