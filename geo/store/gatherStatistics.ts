import { type Database, quoted } from './database.ts'
import { TABLES } from './row.ts'

/**
 * Gathers statistics of a farm's records for the planner. The embedded engine gathers none by itself, and without any it
 * plans joins for tables of a few records.
 */
export async function gatherStatistics(db: Database): Promise<void> {
  await db.rows(`analyze ${TABLES.map((kind) => quoted(kind.name)).join(', ')}`)
}
