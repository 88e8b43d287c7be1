import { NO_ROOM } from '../noRoom.ts'
import { Refusal } from '../refusal.ts'

/** How long what was seen holds. */
const HOLDS_MS = 30_000

/** Whether there is room on the device for what a step may write. */
export interface RoomWatch {
  /** Refuses where there is none. */
  forStep(): Promise<void>
  /** Looks ahead while nobody waits, so that the next step need not. */
  look(): Promise<void>
}

/**
 * Refuses a step while there is no room for what one may write, before anything of it is done: without room for its own
 * log of writes the database would break off in the middle. A look takes as long as a small step does, so it is best
 * done behind the step before.
 */
export function watchRoom(hasRoom: () => Promise<boolean>, nowMs: () => number): RoomWatch {
  let untilMs = Number.NEGATIVE_INFINITY
  let looking: Promise<void> | null = null

  async function seek(): Promise<void> {
    untilMs = Number.NEGATIVE_INFINITY
    if (await hasRoom()) untilMs = nowMs() + HOLDS_MS
  }
  function look(): Promise<void> {
    looking ??= seek().finally(() => {
      looking = null
    })
    return looking
  }

  return {
    async forStep() {
      await looking
      if (nowMs() < untilMs) return
      await look()
      if (nowMs() >= untilMs) throw new Refusal('storage', NO_ROOM)
    },
    look,
  }
}
