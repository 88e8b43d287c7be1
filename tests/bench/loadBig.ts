import type { Database } from '../../geo/store/database.ts'
import { gatherStatistics } from '../../geo/store/gatherStatistics.ts'
import { setPlane } from '../../geo/store/setPlane.ts'
import { load } from '../store/farmOf.ts'
import { BIG, bigFarm, ORIGIN } from './bigFarm.ts'

/** Loads the big farm of the benches into a database without a farm. */
export async function loadBig(db: Database): Promise<void> {
  await setPlane(db, ORIGIN)
  await load(db, Object.fromEntries(bigFarm(BIG, 1)))
  await gatherStatistics(db)
}
