import type { AnyRecord, Kind } from '../model/kind.ts'
import { type Database, quoted } from './database.ts'
import { readRecords } from './row.ts'

/** Records with a place that meets the ground of some other records, by the index of places. */
export async function recordsOver(
  db: Database,
  kind: Kind,
  ground: { readonly kind: Kind; readonly ids: readonly string[] },
): Promise<AnyRecord[]> {
  const found = await db.rows<{ id: string }>(
    `select distinct a.id from ${quoted(kind.name)} a
     join ${quoted(ground.kind.name)} b on st_intersects(a.plan, b.plan) where b.id = any($1)`,
    [[...ground.ids]],
  )
  return readRecords(db, kind, { by: 'id', values: found.map(({ id }) => id) })
}
