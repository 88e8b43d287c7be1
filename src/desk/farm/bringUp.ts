import { makeCopy } from '../../../geo/keep/copies.ts'
import type { Database } from '../../../geo/store/database.ts'
import { migrate, UnknownSchema } from '../../../geo/store/migrate.ts'
import { Refusal } from '../refusal.ts'
import { farmFolder, type KeptEntry } from './entry.ts'
import type { Keeper } from './keeper.ts'

const always = async () => true

/**
 * Brings a farm's database to this version's schema. A logical copy is made before, and another after, since a copy is
 * read into the schema that it was made in. Refuses a farm that a newer version has opened.
 */
export async function bringUp(keeper: Keeper, entry: KeptEntry, db: Database): Promise<KeptEntry> {
  const known = await db.rows<{ name: string }>('select name from migrations order by name')
  const isSame = known.map((m) => m.name).join() === keeper.migrations.map((m) => m.name).join()
  if (isSame) return entry
  const isOlder = known.length < keeper.migrations.length
  const copy = () => makeCopy(db, keeper.shelf, farmFolder(entry.id), keeper.nowMs(), always)
  if (isOlder) await copy()
  await migrate(db, keeper.migrations).catch((error: unknown) => {
    throw error instanceof UnknownSchema ? new Refusal('storage', error.message) : error
  })
  const after = await copy()
  return { ...entry, copiedTo: after?.clock ?? entry.copiedTo }
}
