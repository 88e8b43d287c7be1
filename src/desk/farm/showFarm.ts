import { seasonsWithRecords } from '../../../geo/cards/seasons.ts'
import { type Farm, farm as farmKind } from '../../../geo/model/farm.ts'
import type { Database } from '../../../geo/store/database.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { readRecords } from '../../../geo/store/row.ts'
import type { OpenFarm } from '../door.ts'
import { shownEntry } from './entry.ts'
import type { FarmInHand } from './keeper.ts'
import { readHistory } from './readHistory.ts'

/** The farm's record and where its plane touches the earth; null where there is no record. */
export async function readFarm(db: Database): Promise<Pick<OpenFarm, 'farm' | 'origin'> | null> {
  const [farm] = await readRecords(db, farmKind)
  return farm ? { farm: farm as unknown as Farm, origin: await readOrigin(db) } : null
}

/** What the page needs to know of the farm in hand. */
export async function showFarm({ entry, db, notices }: FarmInHand): Promise<OpenFarm> {
  return db.transaction(async (tx) => {
    const seen = await readFarm(tx)
    if (!seen) throw new Error(`the database of farm ${entry.id} holds no farm record`)
    return {
      entry: shownEntry(entry),
      ...seen,
      seasons: await seasonsWithRecords(tx),
      history: await readHistory(tx),
      notices,
    }
  })
}
