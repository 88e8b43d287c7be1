/** A file open for reading and writing at once (FileSystemSyncAccessHandle, WHATWG File System §2.8). Dedicated workers only. */
export interface AccessHandle {
  read(into: Uint8Array, options: { at: number }): number
  write(bytes: Uint8Array, options: { at: number }): number
  truncate(size: number): void
  getSize(): number
  flush(): void
  close(): void
}

/** Opens a file for this worker alone. Throws `NoModificationAllowedError` where it is open already. */
export function openHandle(file: FileSystemFileHandle): Promise<AccessHandle> {
  return (file as FileSystemFileHandle & { createSyncAccessHandle(): Promise<AccessHandle> }).createSyncAccessHandle()
}

const FREE_WITHIN_MS = 4000
const AGAIN_MS = 50

/**
 * Makes every opening of a file in this worker wait a little for it to be free: a page that was reloaded, or another
 * that gave a farm up, lets go of its files one after another, and the engine would take one still held for lost.
 */
export function waitForHandles(): void {
  const files = FileSystemFileHandle.prototype as unknown as { createSyncAccessHandle?: () => Promise<AccessHandle> }
  const open = files.createSyncAccessHandle
  if (!open) return
  files.createSyncAccessHandle = async function (this: FileSystemFileHandle) {
    const latest = performance.now() + FREE_WITHIN_MS
    for (;;)
      try {
        return await open.call(this)
      } catch (error) {
        const isHeld = error instanceof DOMException && error.name === 'NoModificationAllowedError'
        if (!isHeld || performance.now() > latest) throw error
        await new Promise((again) => setTimeout(again, AGAIN_MS))
      }
  }
}
