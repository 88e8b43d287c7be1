import { seasonsWithRecords } from '../../../geo/cards/seasons.ts'
import { type Farm, farm as farmKind } from '../../../geo/model/farm.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { readRecords } from '../../../geo/store/row.ts'
import type { OpenFarm } from '../door.ts'
import { shownEntry } from './entry.ts'
import type { FarmInHand } from './keeper.ts'
import { readHistory } from './readHistory.ts'

/** What the page needs to know of the farm in hand. */
export async function showFarm({ entry, db, notices }: FarmInHand): Promise<OpenFarm> {
  return db.transaction(async (tx) => {
    const [farm] = await readRecords(tx, farmKind)
    if (!farm) throw new Error(`the database of farm ${entry.id} holds no farm record`)
    return {
      entry: shownEntry(entry),
      farm: farm as unknown as Farm,
      origin: await readOrigin(tx),
      seasons: await seasonsWithRecords(tx),
      history: await readHistory(tx),
      notices,
    }
  })
}
