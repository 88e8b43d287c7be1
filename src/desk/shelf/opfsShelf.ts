import type { Shelf } from '../../../geo/keep/shelf.ts'
import { type AccessHandle, openHandle } from './accessHandle.ts'
import { keptBlob } from './keptBlob.ts'

/** How many files stay open for writing. Some browsers allow only some 250 open handles to a page in all. */
const MOST_OPEN = 4

/**
 * A shelf in a folder of the origin's private files. Dedicated worker only: bytes are written through access handles,
 * the one way to have them on the disk before going on. The files written to last stay open.
 */
export function opfsShelf(folder: string): Shelf {
  const open = new Map<string, AccessHandle>()

  async function handleOf(name: string): Promise<AccessHandle> {
    const known = open.get(name)
    if (known) {
      open.delete(name)
      open.set(name, known)
      return known
    }
    for (const [oldest, handle] of open) {
      if (open.size < MOST_OPEN) break
      handle.close()
      open.delete(oldest)
    }
    const file = await fileAt(`${folder}/${name}`, true)
    const handle = await openHandle(file!)
    open.set(name, handle)
    return handle
  }

  function put(handle: AccessHandle, bytes: Uint8Array, at: number): void {
    try {
      if (handle.write(bytes, { at }) !== bytes.length) throw noRoom()
      handle.flush()
    } catch (error) {
      // What was not promised must not stand there later on.
      handle.truncate(at)
      throw error
    }
  }

  return {
    async list(within) {
      const names: string[] = []
      const directory = await folderAt(`${folder}/${within}`, false)
      if (directory) await gather(directory, within, names)
      return names.sort()
    },
    async read(name) {
      const handle = open.get(name)
      if (handle) {
        const bytes = new Uint8Array(handle.getSize())
        handle.read(bytes, { at: 0 })
        return bytes
      }
      const file = await fileAt(`${folder}/${name}`, false)
      return file && new Uint8Array(await (await file.getFile()).arrayBuffer())
    },
    async write(name, bytes) {
      const handle = await handleOf(name)
      handle.truncate(0)
      put(handle, bytes, 0)
    },
    async append(name, bytes) {
      const handle = await handleOf(name)
      put(handle, bytes, handle.getSize())
    },
    async remove(name) {
      open.get(name)?.close()
      open.delete(name)
      await removeEntry(`${folder}/${name}`)
    },
    async open(name) {
      open.get(name)?.close()
      open.delete(name)
      const file = await fileAt(`${folder}/${name}`, false)
      return file && keptBlob(await file.getFile())
    },
    async begin(name) {
      open.get(name)?.close()
      open.delete(name)
      const handle = await openHandle((await fileAt(`${folder}/${name}`, true))!)
      handle.truncate(0)
      let at = 0
      return {
        async append(bytes) {
          const written = handle.write(bytes, { at })
          at += written
          if (written !== bytes.length) throw noRoom()
        },
        async finish() {
          handle.flush()
          handle.close()
        },
        async abandon() {
          handle.close()
          await removeEntry(`${folder}/${name}`)
        },
      }
    },
  }
}

const noRoom = () => new DOMException('there is no room left on this device', 'QuotaExceededError')

async function gather(directory: FileSystemDirectoryHandle, within: string, names: string[]): Promise<void> {
  for await (const [name, entry] of directory.entries())
    if (entry.kind === 'file') names.push(within + name)
    else await gather(entry as FileSystemDirectoryHandle, `${within}${name}/`, names)
}

const partsOf = (path: string) => path.split('/').filter(Boolean)

/** A folder of the origin's private files, or null where it is not there and not to be made. */
export async function folderAt(path: string, create: boolean): Promise<FileSystemDirectoryHandle | null> {
  let directory = await navigator.storage.getDirectory()
  for (const part of partsOf(path)) {
    const inner = await directory.getDirectoryHandle(part, { create }).catch(nullWhereAbsent)
    if (!inner) return null
    directory = inner
  }
  return directory
}

/** A file of the origin's private files, or null where it is not there and not to be made. */
export async function fileAt(path: string, create: boolean): Promise<FileSystemFileHandle | null> {
  const parts = partsOf(path)
  const directory = await folderAt(parts.slice(0, -1).join('/'), create)
  return (await directory?.getFileHandle(parts.at(-1)!, { create }).catch(nullWhereAbsent)) ?? null
}

/** Removes a file or a folder with all that is in it; nothing happens where there is none. */
export async function removeEntry(path: string): Promise<void> {
  const parts = partsOf(path)
  const directory = await folderAt(parts.slice(0, -1).join('/'), false)
  await directory?.removeEntry(parts.at(-1)!, { recursive: true }).catch(nullWhereAbsent)
}

function nullWhereAbsent(error: unknown): null {
  if (error instanceof DOMException && error.name === 'NotFoundError') return null
  throw error
}
