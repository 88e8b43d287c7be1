import { DatabaseError } from '../../geo/store/database.ts'

/** What is told where something could not be written for lack of room, and what can be done. */
export const NO_ROOM =
  'There is no room left on this device, so this was not kept; what you entered still stands. Make room, then keep it again: save the farm as an archive elsewhere, free the files of removed photos (Ground, Photos), or clear other things from the device.'

/** Postgres' state for a full disk. */
const DISK_FULL = '53100'
/** What it says where the browser refuses more room: the engine hands on the number of that error, which reads so in C. */
const REFUSED = /: (File too large|No space left on device)$/

/** True for an error that says that the device has no room left. */
export function isFull(error: unknown): boolean {
  if (error instanceof DOMException) return error.name === 'QuotaExceededError'
  return error instanceof DatabaseError && (error.sqlState === DISK_FULL || REFUSED.test(error.message))
}
