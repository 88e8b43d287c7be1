import type { AnyRecord } from '../../geo/model/kind.ts'
import type { Database } from '../../geo/store/database.ts'
import { insertRecords, openStep, TABLES } from '../../geo/store/row.ts'

/** Records by kind, with what every record must have left out for brevity. */
export type Brief = Readonly<Record<string, readonly (Record<string, unknown> & { id: string })[]>>

/** Loads records as a farm's first state, in the order that their kinds want. */
export function load(db: Database, records: Brief): Promise<void> {
  return db.transaction(async (tx) => {
    await openStep(tx, 'load')
    for (const kind of TABLES)
      await insertRecords(
        tx,
        kind,
        (records[kind.name] ?? []).map((record) => ({ extra: {}, ...record }) as AnyRecord),
      )
  })
}
