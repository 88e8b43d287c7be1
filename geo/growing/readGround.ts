import type { LineString } from 'geojson'
import { HELD_WITHIN_M } from '../measure/held.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import { type Crop, crops as cropKind } from '../model/crops.ts'
import { type Dressing, dressings as dressingKind } from '../model/dressings.ts'
import { type Planting, plantings as plantingKind } from '../model/plantings.ts'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import { type Variety, varieties as varietyKind } from '../model/varieties.ts'
import { boxOf } from '../plane/box.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { fromStored, readRecords, readStored } from '../store/row.ts'
import type { Ground, GroundBed, GroundRow, GroundSupport } from './ground.ts'
import { walnutSource } from './walnutSource.ts'

/** Reads what stands and stood where, of the whole farm or of the beds named. */
export async function readGround(db: Database, beds: readonly string[] | null): Promise<Ground> {
  const [farm] = await db.rows<{ start: number }>('select season_start_month as start from farm')
  const bedRows = await db.rows<Lined<GroundBed, 'middle'>>(
    `select id, field, name, encode(st_asewkb(long_middle(plan)), 'hex') as middle from beds
     where $1::text[] is null or id = any($1) order by ord`,
    [beds],
  )
  const rowRows = await db.rows<Lined<GroundRow, 'line'>>(
    `select id, bed, name, side, encode(st_asewkb(plan), 'hex') as line from rows
     where $1::text[] is null or bed = any($1) order by ord`,
    [beds],
  )
  const crops = (await readRecords(db, cropKind)) as unknown as Crop[]
  const varieties = (await readRecords(db, varietyKind)) as unknown as Variety[]
  const manure = (
    (await readStored(db, dressingKind, beds ? { by: 'bed', values: beds } : undefined)) as unknown as Dressing[]
  ).filter(({ raw_manure }) => raw_manure === true)
  return {
    seasonStartMonth: farm?.start ?? 1,
    beds: byId(bedRows.map((bed) => ({ ...bed, middle: lineOf(bed.middle) }))),
    rows: byId(rowRows.map((row) => ({ ...row, line: lineOf(row.line) }))),
    crops: byId(crops),
    varieties: byId(varieties),
    plantings: await plantingsIn(db, beds),
    sources: await jugloneSources(db),
    supports: await supportsAlong(db, beds),
    manure,
    picked: await pickedIn(db, [...new Set(manure.map(({ bed }) => bed))]),
  }
}

type Lined<T, K extends keyof T> = Omit<T, K> & Readonly<Record<K, string>>

async function plantingsIn(db: Database, beds: readonly string[] | null): Promise<Planting[]> {
  const ids = beds && (await db.rows<{ id: string }>('select plantings_in($1) as id', [beds])).map(({ id }) => id)
  const stored = await readStored(db, plantingKind, ids ? { by: 'id', values: ids } : undefined)
  return stored.map(fromStored) as unknown as Planting[]
}

async function jugloneSources(db: Database): Promise<Ground['sources']> {
  const trees = (await readRecords(db, treeKind)) as unknown as Tree[]
  const sources = trees.filter(isJugloneSource)
  if (sources.length === 0) return []
  const places = await db.rows<{ id: string; x: number; y: number }>(
    'select id, st_x(plan) as x, st_y(plan) as y from trees where id = any($1)',
    [sources.map(({ id }) => id)],
  )
  const at = new Map(places.map(({ id, x, y }): [string, Metres] => [id, [x, y]]))
  return sources.map((tree) => walnutSource(tree, at.get(tree.id)!))
}

async function supportsAlong(db: Database, beds: readonly string[] | null): Promise<GroundSupport[]> {
  const along = `where id in (
    select s.id from rows r join supports s on st_dwithin(r.plan, s.plan, ${HELD_WITHIN_M}) where r.bed = any($1)
    union select s.id from beds b join supports s on st_dwithin(b.plan, s.plan, ${HELD_WITHIN_M}) where b.id = any($1))`
  const found = await db.rows<Omit<Lined<GroundSupport, 'line'>, 'box'>>(
    `select id, put_up, taken_down, encode(st_asewkb(plan), 'hex') as line from supports ${beds ? along : ''} order by ord`,
    beds ? [beds] : [],
  )
  return found.map((support) => {
    const line = lineOf(support.line)
    return { ...support, line, box: boxOf(line) }
  })
}

async function pickedIn(db: Database, beds: readonly string[]): Promise<Map<string, string[]>> {
  if (beds.length === 0) return new Map()
  const rows = await db.rows<{ planting: string; days: string }>(
    `select planting, string_agg("on"::text, ' ' order by "on") as days from picks
     where planting = any(array(select plantings_in($1))) group by planting`,
    [beds],
  )
  return new Map(rows.map(({ planting, days }) => [planting, days.split(' ')]))
}

const byId = <T extends { id: string }>(records: readonly T[]): Map<string, T> =>
  new Map(records.map((one) => [one.id, one]))

function lineOf(hex: string): Metres[] {
  return (fromEwkb(hex) as LineString).coordinates as unknown as Metres[]
}
