import type { Database } from '../database.ts'
import { directoryOf } from './makeTemplate.ts'
import { openNodeDatabase } from './nodeEngine.ts'

/** A template that holds a farm already: the usual one, with what `fill` writes into it. Node only. */
export function fillTemplate(fill: (db: Database) => Promise<void>): Promise<Uint8Array> {
  return directoryOf(async (dataDir) => {
    const db = await openNodeDatabase({ dataDir })
    await fill(db)
    return db
  })
}
