import { isFull } from '../noRoom.ts'
import { copyFarm } from './copyFarm.ts'
import type { FarmInHand, Keeper } from './keeper.ts'
import { tidy } from './tidy.ts'
import { warmUp } from './warmUp.ts'

/** Told when requests wait and when none does. */
export interface Tending {
  busy(): void
  free(): void
}

/** After so many steps a copy is made as soon as nobody asks for anything, after fewer when it has been quiet longer. */
const MANY_STEPS = 200
const SHORT_MS = 2000
const LONG_MS = 30_000

/**
 * Looks after the farm in hand while nothing is asked: looks for room for the next step, warms the farm up, makes logical
 * copies in slices between requests, with a checkpoint after each so that the next opening has little to replay, and once
 * clears away the remains of farms that were never finished.
 */
export function tend(keeper: Keeper): Tending {
  let waiting = 0
  let timer: ReturnType<typeof setTimeout> | undefined
  let isTidy = false
  let warm: FarmInHand | null = null
  let working = false
  /** The steps of the farm in hand when room for another was looked for last. */
  let seenSteps = 0

  const isQuiet = () => waiting === 0
  const untilQuiet = async (): Promise<void> => {
    do await new Promise((go) => setTimeout(go, 0))
    while (!isQuiet())
  }

  async function look(farm: FarmInHand, quietMs: number): Promise<void> {
    if (warm !== farm) {
      warm = farm
      await warmUp(farm, new Date(keeper.nowMs()).toISOString().slice(0, 10))
    }
    if (!isTidy) {
      isTidy = true
      await tidy(keeper)
    }
    if (farm.stepsSinceCopy < (quietMs >= LONG_MS ? 1 : MANY_STEPS)) return
    const { steps } = farm
    const made = await copyFarm(keeper, farm, async () => {
      await untilQuiet()
      return keeper.inHand === farm && farm.steps === steps
    })
    if (made && keeper.inHand === farm) await farm.db.rows('checkpoint')
  }

  function plan(quietMs: number): void {
    clearTimeout(timer)
    timer = setTimeout(
      async () => {
        const farm = keeper.inHand
        if (!farm || working || !isQuiet()) return
        working = true
        await look(farm, quietMs).catch((error: unknown) => {
          if (isFull(error)) keeper.say({ event: 'no copy' })
          else if (keeper.inHand === farm) console.warn('the farm could not be copied', error)
        })
        working = false
        if (isQuiet() && quietMs < LONG_MS) plan(LONG_MS)
      },
      quietMs < LONG_MS ? quietMs : LONG_MS - SHORT_MS,
    )
  }

  return {
    busy() {
      waiting++
      clearTimeout(timer)
    },
    free() {
      waiting--
      if (!isQuiet()) return
      plan(SHORT_MS)
      const steps = keeper.inHand?.steps ?? 0
      // What fails here fails again before the next step, and is told there.
      if (steps !== seenSteps) void keeper.room.look().catch(() => undefined)
      seenSteps = steps
    },
  }
}
