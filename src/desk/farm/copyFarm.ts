import { type CopyHead, makeCopy } from '../../../geo/keep/copies.ts'
import { farmFolder, writeEntry } from './entry.ts'
import type { FarmInHand, Keeper } from './keeper.ts'

/** Makes a logical copy of the farm in hand. False where `pause` gave it up. */
export async function copyFarm(keeper: Keeper, farm: FarmInHand, pause: () => Promise<boolean>): Promise<boolean> {
  const folder = farmFolder(farm.entry.id)
  const copy = await makeCopy(farm.db, keeper.shelf, folder, keeper.nowMs(), pause)
  if (!copy) return false
  await haveCopied(keeper, farm, copy)
  return true
}

/** Notes that a copy of the farm in hand is whole: the log goes on from it. */
export async function haveCopied(keeper: Keeper, farm: FarmInHand, copy: CopyHead): Promise<void> {
  farm.log.turn()
  farm.stepsSinceCopy = 0
  farm.entry = { ...farm.entry, copiedTo: copy.clock }
  await writeEntry(keeper.shelf, farm.entry)
  keeper.say({ event: 'kept', copyMs: copy.madeMs })
}
