import { isFull } from '../noRoom.ts'
import { openHandle } from './accessHandle.ts'
import { fileAt } from './opfsShelf.ts'

const TRIED = 'selion/room'

/**
 * True unless the browser refuses so many bytes more. What it tells of its room by itself is no measure: it may tell of
 * 10 GB always, so as not to give the device away. So a file is made as long as that, without writing it. Dedicated
 * worker only.
 */
export async function hasRoom(bytes: number): Promise<boolean> {
  try {
    const handle = await openHandle((await fileAt(TRIED, true))!)
    try {
      handle.truncate(bytes)
      handle.truncate(0)
    } finally {
      handle.close()
    }
    return true
  } catch (error) {
    return !isFull(error)
  }
}

/** The same where nothing can be tried for want of access handles: true unless the browser itself tells of less. */
export async function tellsRoom(bytes: number, storage: Pick<StorageManager, 'estimate'> = navigator.storage) {
  const { quota, usage } = await storage.estimate().catch((): StorageEstimate => ({}))
  return quota === undefined || usage === undefined || quota - usage >= bytes
}
