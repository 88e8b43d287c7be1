import { makeCopy } from '../../../geo/keep/copies.ts'
import { farmFolder, writeEntry } from './entry.ts'
import type { FarmInHand, Keeper } from './keeper.ts'

/** Makes a logical copy of the farm in hand. False where `pause` gave it up. */
export async function copyFarm(keeper: Keeper, farm: FarmInHand, pause: () => Promise<boolean>): Promise<boolean> {
  const folder = farmFolder(farm.entry.id)
  const copy = await makeCopy(farm.db, keeper.shelf, folder, keeper.nowMs(), pause)
  if (!copy) return false
  farm.log.turn()
  farm.stepsSinceCopy = 0
  farm.entry = { ...farm.entry, copiedTo: copy.clock }
  await writeEntry(keeper.shelf, farm.entry)
  keeper.say({ event: 'kept', copyMs: copy.madeMs })
  return true
}
