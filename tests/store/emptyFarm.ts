import { type Database, quoted } from '../../geo/store/database.ts'
import { TABLES } from '../../geo/store/row.ts'

/** Takes every farm record away; the plane stays. */
export async function emptyFarm(db: Database): Promise<void> {
  await db.rows(`truncate ${TABLES.map((kind) => quoted(kind.name)).join(', ')} cascade`)
}
