import { uuid7 } from '../../../geo/model/uuid.ts'
import { tick } from '../../../geo/store/clock.ts'
import { type Act, applyEdits, type Edit } from '../../../geo/store/edit.ts'
import type { Pace } from '../../../geo/store/pace.ts'
import type { Step } from '../../../geo/store/step.ts'
import { takeBack } from '../../../geo/store/undo.ts'
import { withdrawStep } from '../../../geo/store/withdraw.ts'
import { isFull, NO_ROOM } from '../noRoom.ts'
import { Refusal } from '../refusal.ts'
import type { FarmInHand, Keeper } from './keeper.ts'
import { loseFarm } from './letGo.ts'
import { placeFarm } from './placeFarm.ts'
import { weighPicks } from './weighPicks.ts'

/**
 * Does a person's edits as one step. When it resolves, the step is in the database and, on the disk, in the log; where
 * `pace` throws, nothing of it is kept.
 */
export async function takeStep(
  keeper: Keeper,
  farm: FarmInHand,
  label: string,
  edits: readonly Edit[],
  pace?: Pace,
): Promise<Step> {
  await keeper.room.forStep()
  const placed = await placeFarm(farm, edits)
  const taking = farm.db.transaction(async (tx) =>
    applyEdits(tx, nextAct(keeper, farm, label), await weighPicks(tx, placed), pace),
  )
  const step = await taking.catch((error) => {
    farm.isPlaced = false
    throw error
  })
  return secured(keeper, farm, step)
}

/** Takes back the last step, or does again the last one taken back. Null when there is none. */
export async function takeBackStep(
  keeper: Keeper,
  farm: FarmInHand,
  which: 'undo' | 'redo',
  pace?: Pace,
): Promise<Step | null> {
  await keeper.room.forStep()
  const { label: _, ...act } = nextAct(keeper, farm, which)
  farm.isPlaced = false
  const step = await takeBack(farm.db, which, act, pace)
  return step && secured(keeper, farm, step)
}

function nextAct(keeper: Keeper, farm: FarmInHand, label: string): Act {
  const now = keeper.nowMs()
  return {
    id: uuid7(now, keeper.random(10)),
    clock: tick(farm.clock, now, keeper.device),
    device: keeper.device,
    author: null,
    label,
  }
}

async function secured(keeper: Keeper, farm: FarmInHand, step: Step): Promise<Step> {
  farm.steps++
  try {
    await farm.log.append([{ step }])
  } catch (error) {
    throw await unsecured(keeper, farm, step, error as Error)
  }
  farm.clock = step.clock
  farm.stepsSinceCopy++
  return step
}

/** Takes out of the database what the log could not take, so that nothing stands there that was not confirmed; says why. */
async function unsecured(keeper: Keeper, farm: FarmInHand, step: Step, error: Error): Promise<Refusal> {
  farm.isPlaced = false
  try {
    await withdrawStep(farm.db, step)
  } catch (worse) {
    const why = `“${step.label}” was made but could not be written to the step log (${error.message}), nor be taken out again (${(worse as Error).message}). Make room on this device, open the farm again, and look whether it is there before you enter it once more.`
    loseFarm(keeper, farm.entry.id, why)
    return new Refusal('storage', why)
  }
  return new Refusal(
    'storage',
    isFull(error) ? NO_ROOM : `This could not be written to the step log (${error.message}) and was not kept.`,
  )
}
