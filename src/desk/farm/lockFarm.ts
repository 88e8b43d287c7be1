import { Refusal } from '../refusal.ts'
import type { FarmLock } from './farmLock.ts'
import type { Keeper } from './keeper.ts'
import { handOver, loseFarm } from './letGo.ts'

/** Takes the one right to write to a farm, or refuses, saying what the person can do. */
export async function lockFarm(
  keeper: Keeper,
  { id, name }: { id: string; name: string },
  takeOver: boolean,
): Promise<FarmLock> {
  const lock = await keeper.takeFarm(id, takeOver, {
    onAsked: () => void handOver(keeper, id),
    onTaken: () => loseFarm(keeper, id, 'The farm was taken over by another tab or window.'),
  })
  if (lock) return lock
  throw new Refusal(
    'locked',
    `${name} is open in another tab or window. Close it there, or take it over here: what was entered there is kept.`,
  )
}
