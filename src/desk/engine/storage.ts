import { type AccessHandle, openHandle } from '../shelf/accessHandle.ts'
import { folderAt, removeEntry } from '../shelf/opfsShelf.ts'

/** About as many access handles as the engine needs. Some browsers allow only some 250 to a page. */
const ENGINE_HANDLES = 600

const AT_ONCE = 100

/** True where files can be written through access handles at all. */
export async function hasAccessHandles(): Promise<boolean> {
  return (await handlesToBeHad(1)) === 1
}

/** True where so many access handles can be open at once as Postgres has files. Takes some tenths of a second. */
export async function hasHandlesForEngine(): Promise<boolean> {
  return (await handlesToBeHad(ENGINE_HANDLES)) === ENGINE_HANDLES
}

async function handlesToBeHad(wanted: number): Promise<number> {
  const handles: AccessHandle[] = []
  const name = `selion/tried-${crypto.randomUUID()}`
  try {
    const folder = await folderAt(name, true)
    const open = async (n: number) => {
      const file = await folder!.getFileHandle(String(n), { create: true })
      handles.push(await openHandle(file))
    }
    for (let from = 0; from < wanted; from += AT_ONCE)
      await Promise.all(Array.from({ length: Math.min(AT_ONCE, wanted - from) }, (_, n) => open(from + n)))
  } catch {
    // That many and no more are to be had.
  }
  for (const handle of handles) handle.close()
  await removeEntry(name).catch(() => undefined)
  return handles.length
}
