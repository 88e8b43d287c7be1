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
