import { NO_ROOM } from '../noRoom.ts'
import { Refusal } from '../refusal.ts'

const LOOK_MS = 2000

/**
 * Refuses a step while there is no room for what one may write, before anything of it is done: without room for its own
 * log of writes the database would break off in the middle. Asked before each step, it looks only now and then.
 */
export function watchRoom(hasRoom: () => Promise<boolean>, nowMs: () => number): () => Promise<void> {
  let againMs = Number.NEGATIVE_INFINITY
  return async () => {
    if (nowMs() < againMs) return
    if (!(await hasRoom())) throw new Refusal('storage', NO_ROOM)
    againMs = nowMs() + LOOK_MS
  }
}
