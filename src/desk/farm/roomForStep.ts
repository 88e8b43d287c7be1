import { NO_ROOM } from '../noRoom.ts'
import { Refusal } from '../refusal.ts'

/** With less than this the database could break off in the middle of a step: its log of writes alone grows by 1 MB at a time. */
const LEAST_BYTES = 16 * 1024 * 1024
/** With more than this nothing needs to be looked at again soon. */
const PLENTY_BYTES = 512 * 1024 * 1024
const LOOK_MS = 2000
const PLENTY_MS = 60_000

/**
 * Refuses a step while the browser tells of too little room for one; asked before each step, it looks only now and then.
 * `free` gives the bytes that are left, null where the browser does not tell.
 */
export function watchRoom(free: () => Promise<number | null>, nowMs: () => number): () => Promise<void> {
  let againMs = Number.NEGATIVE_INFINITY
  return async () => {
    if (nowMs() < againMs) return
    const bytes = await free()
    if (bytes !== null && bytes < LEAST_BYTES) throw new Refusal('storage', NO_ROOM)
    againMs = nowMs() + (bytes === null || bytes > PLENTY_BYTES ? PLENTY_MS : LOOK_MS)
  }
}
