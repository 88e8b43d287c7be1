import { type Farm, farm as farmKind } from '../model/farm.ts'
import type { AnyRecord } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { readRecords } from '../store/row.ts'
import type { FarmContent } from './archive.ts'

/** A whole farm from its database, and `photos`, whose files lie elsewhere. Throws where the database holds no farm. */
export async function readContent(db: Database, photos: ReadonlyMap<string, Uint8Array>): Promise<FarmContent> {
  const [farm] = await readRecords(db, farmKind)
  if (!farm) throw new Error('this database holds no farm')
  const records = new Map<string, readonly AnyRecord[]>()
  for (const kind of KINDS) {
    const read = await readRecords(db, kind)
    if (read.length > 0) records.set(kind.name, read)
  }
  return { farm: farm as unknown as Farm, origin: await readOrigin(db), records, photos }
}
