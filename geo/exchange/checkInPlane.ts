import { lonWithin180 } from '../plane/lonLat.ts'
import { PLANE_SRID } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { toEwkb } from '../store/ewkb.ts'
import type { Draft } from './archive.ts'
import type { Faults } from './faults.ts'

const BATCH = 2000
/** As the database has it (`stretch_within_row`). */
const STRETCH_TOLERANCE_M = 0.1

/** What a record of one kind must lie within: the kind and field of its holder, how far it may reach out, and the words for it. */
const WITHIN = [
  { kind: 'beds', holder: 'fields', field: 'field', toleranceM: 0.25, leaves: 'leaves its field' },
  { kind: 'rows', holder: 'beds', field: 'bed', toleranceM: 0.5, leaves: 'leaves its bed' },
] as const

/** A bed or row that reaches out of what it belongs to, and how far its farthest corner does, in metres. */
export interface Outside {
  readonly draft: Draft
  readonly reachM: number
}

/** How `checkInPlane` looks. */
export interface InPlane {
  /** The plane's SRID where it is not the farm's own. */
  readonly srid?: number
  /** The person accepts beds and rows that reach out of what they belong to, so long as they lie partly in it. */
  readonly acceptsOutside?: boolean
}

/**
 * Tells every fault that shows only in the farm's plane: outlines that cross themselves, beds outside their field, rows
 * outside their bed, stretches beyond their row. Needs an open transaction with the plane set; leaves nothing behind.
 * Invalid geometry takes no part in overlays, since those would escape without an error. Gives those that reach out but
 * lie partly in, which the person may accept: accepted, they are no fault and are marked so.
 */
export async function checkInPlane(
  tx: Database,
  drafts: readonly Draft[],
  faults: Faults,
  { srid = PLANE_SRID, acceptsOutside = false }: InPlane = {},
): Promise<Outside[]> {
  await tx.rows(`create temp table staged (n integer, kind text, id text, holder text, accepted boolean,
    plan geometry, sound boolean) on commit drop`)
  await stage(tx, drafts, srid)
  await tx.rows('create index on staged (kind, id)')
  await tellInvalid(tx, drafts, faults, srid)
  const outside: Outside[] = []
  for (const rule of WITHIN) outside.push(...(await tellOutside(tx, drafts, rule, acceptsOutside, faults)))
  await tellBeyond(tx, drafts, faults)
  await tx.rows('drop table staged')
  return outside
}

async function stage(tx: Database, drafts: readonly Draft[], srid: number): Promise<void> {
  const seen = new Set<string>()
  const rows: { n: number; kind: string; id: string | null; holder: unknown; accepted: boolean; geom: string }[] = []
  drafts.forEach((draft, n) => {
    const { record, kind } = draft
    if (!record.geom) return
    const key = `${kind.name} ${record.id}`
    const holder = WITHIN.find((rule) => rule.kind === kind.name)
    rows.push({
      n,
      kind: kind.name,
      id: seen.has(key) ? null : record.id,
      holder: holder ? record[holder.field] : null,
      accepted: record.outside_accepted === true,
      geom: toEwkb(record.geom),
    })
    seen.add(key)
  })
  for (let from = 0; from < rows.length; from += BATCH)
    await tx.rows(
      `insert into staged select n, kind, id, holder, accepted, plan, st_isvalid(plan)
       from jsonb_to_recordset($1::jsonb) as x(n integer, kind text, id text, holder text, accepted boolean, geom text),
       lateral st_force2d(st_transform(x.geom::geometry, $2::integer)) as plan`,
      [JSON.stringify(rows.slice(from, from + BATCH)), srid],
    )
}

async function tellInvalid(tx: Database, drafts: readonly Draft[], faults: Faults, srid: number): Promise<void> {
  const found = await tx.rows<{ n: number; reason: string; lon: number | null; lat: number | null }>(
    `select n, reason, st_x(at) as lon, st_y(at) as lat
     from staged, lateral st_isvaliddetail(plan), lateral st_transform(st_setsrid(location, $1::integer), 4326) as at
     where not sound order by n`,
    [srid],
  )
  for (const { n, reason, lon, lat } of found) {
    const place =
      lon === null || lat === null ? '' : ` at ${lonWithin180(lon).toFixed(7)}, ${lat.toFixed(7)} (lon, lat)`
    faults.of(drafts[n]!, 'geometry', `${inWords(reason)}${place}`)
  }
}

/** What GEOS says of an invalid geometry, in plain words. */
function inWords(reason: string): string {
  if (reason === 'Self-intersection') return 'has an outline that crosses itself'
  if (reason === 'Ring Self-intersection') return 'has a ring that touches or crosses itself'
  if (reason === 'Interior is disconnected') return 'has a ring that cuts its inside in two'
  if (reason === 'Hole lies outside shell') return 'has a hole outside its outline'
  if (reason === 'Holes are nested') return 'has a hole within a hole'
  if (reason === 'Nested shells') return 'has a part that lies within another'
  return `is not valid: ${reason}`
}

async function tellOutside(
  tx: Database,
  drafts: readonly Draft[],
  rule: (typeof WITHIN)[number],
  acceptsOutside: boolean,
  faults: Faults,
): Promise<Outside[]> {
  const found = await tx.rows<{ n: number; holder: string; reach_m: number; partly: boolean }>(
    `select i.n, o.id as holder,
       (select max(st_distance(corner.geom, o.plan)) from st_dumppoints(i.plan) as corner) as reach_m,
       st_intersects(i.plan, o.plan) as partly
     from staged i join staged o on o.kind = $2 and o.id = i.holder
     where i.kind = $1 and not i.accepted and i.sound and o.sound and not lies_within(i.plan, o.plan, $3)
     order by i.n`,
    [rule.kind, rule.holder, rule.toleranceM],
  )
  for (const { n, holder, reach_m, partly } of found) {
    if (partly && acceptsOutside) {
      drafts[n]!.record.outside_accepted = true
      continue
    }
    const reach = reach_m > 0 ? ` by ${reach_m.toFixed(2)} m` : ''
    faults.of(
      drafts[n]!,
      'geometry',
      `${rule.leaves} ${JSON.stringify(holder)}${reach}; up to ${rule.toleranceM} m is let pass`,
    )
  }
  return found.filter(({ partly }) => partly).map(({ n, reach_m }) => ({ draft: drafts[n]!, reachM: reach_m }))
}

async function tellBeyond(tx: Database, drafts: readonly Draft[], faults: Faults): Promise<void> {
  const rows = await tx.rows<{ id: string; length_m: number }>(
    `select id, st_length(plan) as length_m from staged where kind = 'rows' and id is not null`,
  )
  const lengthM = new Map(rows.map((row) => [row.id, row.length_m]))
  for (const draft of drafts) {
    const { row, from_m, to_m } = draft.record
    if (draft.kind.name !== 'plantings' || typeof row !== 'string') continue
    const rowM = lengthM.get(row)
    const ends = [from_m, to_m].filter((m) => typeof m === 'number')
    if (rowM === undefined || ends.length === 0 || Math.max(...ends) <= rowM + STRETCH_TOLERANCE_M) continue
    const field = typeof to_m === 'number' ? 'to_m' : 'from_m'
    faults.of(draft, field, `is ${Math.max(...ends)}, but its row ${JSON.stringify(row)} is ${rowM.toFixed(2)} m long`)
  }
}
