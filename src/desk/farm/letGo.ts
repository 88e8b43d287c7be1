import { within } from '../within.ts'
import { copyFarm } from './copyFarm.ts'
import type { Keeper } from './keeper.ts'

/** Together less than the other tab waits. */
const SETTLE_MS = 1500
const CLOSE_MS = 1200

/** Closes the farm in hand as it should be: a logical copy where there are new steps, the engine, the lock. */
export async function letGo(keeper: Keeper): Promise<void> {
  const farm = keeper.inHand
  if (!farm) return
  if (farm.stepsSinceCopy > 0) await copyFarm(keeper, farm, async () => true)
  keeper.inHand = null
  await farm.db.close().catch(() => undefined)
  farm.lock.release()
}

/** Gives the farm in hand to another tab that has asked for it, once what is being asked here is settled. */
export async function handOver(keeper: Keeper, id: string): Promise<void> {
  const farm = keeper.inHand
  if (farm?.entry.id !== id) return
  await within(SETTLE_MS, 'settling', keeper.settled()).catch(() => undefined)
  if (keeper.inHand !== farm) return
  keeper.inHand = null
  await within(CLOSE_MS, 'closing', farm.db.close()).catch(() => undefined)
  farm.lock.release()
  keeper.say({ event: 'lost', why: 'The farm was opened in another tab or window.' })
}

/** The farm in hand is no longer this worker's, or its engine is at an end: the page must open it again. */
export function loseFarm(keeper: Keeper, id: string, why: string): void {
  const farm = keeper.inHand
  if (farm?.entry.id !== id) return
  keeper.inHand = null
  farm.lock.release()
  keeper.say({ event: 'lost', why })
}
