/** The bytes of the files in a folder of the origin's own file system (WHATWG File System) and in the folders within it. */
export async function fileBytes(folder: FileSystemDirectoryHandle): Promise<number> {
  const sizes: Promise<number>[] = []
  for await (const entry of folder.values())
    sizes.push(
      // What goes meanwhile takes up nothing.
      (isFolder(entry) ? fileBytes(entry) : (entry as FileSystemFileHandle).getFile().then(({ size }) => size)).catch(
        () => 0,
      ),
    )
  return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0)
}

function isFolder(entry: FileSystemHandle): entry is FileSystemDirectoryHandle {
  return entry.kind === 'directory'
}
