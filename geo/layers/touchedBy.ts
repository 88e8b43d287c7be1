import { HELD_WITHIN_M } from '../measure/held.ts'
import { PLANE_SRID } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import type { Change } from '../store/step.ts'
import type { Scope } from './readLayers.ts'

/** What a step may have changed on the map and in the measures, beyond the records that it wrote. */
export interface Touched {
  readonly scope: Scope
  readonly beds: readonly string[]
  readonly fields: readonly string[]
}

/**
 * What must be read again after a step that has been written: stretches follow their row, bed, variety and crop, and
 * the supports that hold them; figures of beds and fields follow what stands in them, before and after.
 */
export async function touchedBy(db: Database, changes: readonly Change[]): Promise<Touched> {
  const ids = (kind: string) => changes.filter((c) => c.kind === kind).map((c) => c.record)
  const told = (kind: string, column: string) => [
    ...new Set(
      changes
        .filter((c) => c.kind === kind)
        .flatMap((c) => [c.before?.[column], c.after?.[column]])
        .filter((value) => typeof value === 'string'),
    ),
  ]
  const near = await nearSupports(db, {
    supports: ids('supports'),
    supportShapes: told('supports', 'geom'),
    beds: ids('beds'),
    bedShapes: told('beds', 'geom'),
  })
  const plantings = await db.rows<{ id: string; bed: string }>(
    `select p.id, coalesce(r.bed, p.bed) as bed from plantings p
     left join rows r on r.id = p.row
     where p.id = any(array(
       select unnest($1::text[])
       union select id from plantings where row = any($2)
       union select id from plantings where row is null and bed = any($3)
       union select id from plantings where variety = any($4)
       union select p.id from plantings p join varieties v on v.id = p.variety where v.crop = any($5)
     ))`,
    [ids('plantings'), [...ids('rows'), ...near.rows], [...ids('beds'), ...near.beds], ids('varieties'), ids('crops')],
  )
  const systems = ids('systems')
  const supports = await db.rows<{ id: string }>('select id from supports where system = any($1)', [systems])
  const rowsBeds = await db.rows<{ bed: string }>(
    'select bed from rows where id = any($1) union select bed from plantings where bed is not null and id = any($2)',
    [[...ids('rows'), ...told('plantings', 'row')], ids('plantings')],
  )
  const beds = [
    ...ids('beds'),
    ...told('rows', 'bed'),
    ...told('plantings', 'bed'),
    ...rowsBeds.map((row) => row.bed),
    ...plantings.map((planting) => planting.bed),
    ...near.beds,
  ]
  const fields = await db.rows<{ id: string }>(
    `select id from fields where id = any($1) or id in (select field from beds where id = any($2)) or $3`,
    [[...ids('fields'), ...told('beds', 'field'), ...near.fields], beds, systems.length > 0],
  )
  const scope: Record<string, string[]> = {}
  for (const { kind, record } of changes) scope[kind] = [...(scope[kind] ?? []), record]
  const noted = await bedsOfStock(db, {
    lots: [...ids('stock_lots'), ...told('stock_moves', 'lot')],
    moves: ids('stock_moves'),
    rows: told('stock_lots', 'row'),
  })
  scope.beds = unique([
    ...ids('beds'),
    ...told('stock_lots', 'bed'),
    ...told('dressings', 'bed'),
    ...(await bedsDressed(db, ids('dressings'))),
    ...noted,
  ])
  scope.plantings = unique([...ids('plantings'), ...plantings.map((planting) => planting.id)])
  scope.supports = unique([...ids('supports'), ...supports.map((support) => support.id)])
  return { scope, beds: unique(beds), fields: unique([...ids('fields'), ...fields.map((field) => field.id)]) }
}

/** Beds in which stock stands, by lots, by moves of lots and by rows. */
async function bedsOfStock(db: Database, of: { lots: string[]; moves: string[]; rows: string[] }): Promise<string[]> {
  if (of.lots.length + of.moves.length + of.rows.length === 0) return []
  const beds = await db.rows<{ bed: string }>(
    `select coalesce(r.bed, l.bed) as bed from stock_lots l left join rows r on r.id = l.row
     where l.id = any($1) or l.id in (select lot from stock_moves where id = any($2))
     union select bed from rows where id = any($3)`,
    [of.lots, of.moves, of.rows],
  )
  return beds.map(({ bed }) => bed)
}

async function bedsDressed(db: Database, dressings: readonly string[]): Promise<string[]> {
  if (dressings.length === 0) return []
  const beds = await db.rows<{ bed: string }>('select bed from dressings where id = any($1)', [dressings])
  return beds.map(({ bed }) => bed)
}

interface Near {
  readonly rows: string[]
  readonly beds: string[]
  readonly fields: string[]
}

/** Rows, beds and fields beside the supports that changed, where they are and were, or that stand beside beds that changed. */
async function nearSupports(
  db: Database,
  of: { supports: string[]; supportShapes: string[]; beds: string[]; bedShapes: string[] },
): Promise<Near> {
  const found: Near = { rows: [], beds: [], fields: [] }
  if (of.supports.length + of.beds.length === 0) return found
  const near = await db.rows<{ kind: keyof Near; id: string }>(
    `with support_shapes as materialized (
       select plan from supports where id = any($1)
       union all select st_force2d(st_transform(g::geometry, ${PLANE_SRID})) from unnest($2::text[]) g
       union all select s.plan from supports s join (
         select plan from beds where id = any($3)
         union all select st_force2d(st_transform(g::geometry, ${PLANE_SRID})) from unnest($4::text[]) g
       ) b on st_dwithin(s.plan, b.plan, ${HELD_WITHIN_M})
     )
     select 'rows' as kind, r.id from support_shapes s join rows r on st_dwithin(r.plan, s.plan, ${HELD_WITHIN_M})
     union select 'beds', b.id from support_shapes s join beds b on st_dwithin(b.plan, s.plan, ${HELD_WITHIN_M})
     union select 'fields', f.id from support_shapes s join fields f on st_intersects(f.plan, s.plan)`,
    [of.supports, of.supportShapes, of.beds, of.bedShapes],
  )
  for (const { kind, id } of near) found[kind].push(id)
  return found
}

const unique = (ids: readonly string[]) => [...new Set(ids)]
