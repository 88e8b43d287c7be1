import { openHandle } from '../shelf/accessHandle.ts'
import { folderAt, removeEntry } from '../shelf/opfsShelf.ts'

/** Postgres has more files than this; some browsers allow some 250 open ones to a page. */
const MANY = 300

/** True where files can be written through access handles at all. */
export async function hasAccessHandles(): Promise<boolean> {
  return canHold(1)
}

/** True where so many access handles can be open at once as the engine needs. Takes some tenths of a second. */
export async function hasHandlesForEngine(): Promise<boolean> {
  return canHold(MANY)
}

/** Tries it out, with empty files that are removed again. */
async function canHold(count: number): Promise<boolean> {
  const name = `selion/tried-${crypto.randomUUID()}`
  try {
    const folder = (await folderAt(name, true))!
    const opened = await Promise.allSettled(
      Array.from({ length: count }, async (_, n) =>
        openHandle(await folder.getFileHandle(String(n), { create: true })),
      ),
    )
    for (const one of opened) if (one.status === 'fulfilled') one.value.close()
    return opened.every((one) => one.status === 'fulfilled')
  } catch {
    return false
  } finally {
    void removeEntry(name).catch(() => undefined)
  }
}
