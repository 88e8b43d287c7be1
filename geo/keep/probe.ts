import { type Database, quoted } from '../store/database.ts'
import { TABLES } from '../store/row.ts'

/**
 * Looks through a database that has just been opened: PostGIS answers, no file of a table or index is gone, and every
 * table reads from end to end (Postgres checks the sum of each page that it reads). Throws where one of these fails.
 */
export async function probe(db: Database): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.rows(`select postgis_version(), st_area(st_buffer(st_makepoint(0, 0), 1))`)
    const gone = await tx.rows<{ name: string }>(
      `select relname as name from pg_class
       where pg_relation_filepath(oid) is not null and (pg_stat_file(pg_relation_filepath(oid), true)).size is null`,
    )
    if (gone[0]) throw new Error(`the file of ${gone[0].name} is gone`)
    const tables = [...TABLES.map((kind) => kind.name), 'steps', 'changes']
    await tx.rows(tables.map((name) => `select count(*) from ${quoted(name)}`).join(' union all '))
  })
}
