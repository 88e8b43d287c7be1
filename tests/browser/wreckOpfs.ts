import type { Page } from 'playwright-core'

/** How a database in the origin's private files is damaged. */
export type OpfsWreck = 'WAL cut short' | 'end of the WAL lost' | 'a table gone' | 'list of files cut short'

/** Damages a database that nobody has open; the page is any page of the site. */
export function wreckOpfs(page: Page, name: string, how: OpfsWreck): Promise<void> {
  return page.evaluate(
    async ([name, how]) => {
      let folder = await navigator.storage.getDirectory()
      for (const part of ['selion', 'engines', name]) folder = await folder.getDirectoryHandle(part)
      const data = await folder.getDirectoryHandle('data')
      const list = await folder.getFileHandle('state.txt')
      const text = await (await list.getFile()).text()

      const rewrite = async (
        file: FileSystemFileHandle,
        change: (bytes: Uint8Array<ArrayBuffer>) => Uint8Array<ArrayBuffer>,
      ) => {
        const bytes = new Uint8Array(await (await file.getFile()).arrayBuffer())
        const writable = await file.createWritable()
        await writable.write(change(bytes))
        await writable.close()
      }
      if (how === 'list of files cut short') return rewrite(list, (bytes) => bytes.slice(0, 500))

      type Node = { type: string; backingFilename: string; children: Record<string, Node> }
      const [state, ...changes] = text.split('\n').filter(Boolean)
      const root = (JSON.parse(state!) as { root: Node }).root
      const files = new Map<string, string>()
      const walk = (node: Node, path: string) => {
        for (const [child, inner] of Object.entries(node.children))
          if (inner.type === 'file') files.set(`${path}${child}`, inner.backingFilename)
          else walk(inner, `${path}${child}/`)
      }
      walk(root, '/')
      for (const change of changes) {
        const { opp, args } = JSON.parse(change) as { opp: string; args: [string, Node] }
        if (opp === 'createFileNode') files.set(args[0], args[1].backingFilename)
      }
      const sizeOf = async (backing: string) => (await (await data.getFileHandle(backing)).getFile()).size
      if (how === 'a table gone') {
        const tables = [...files].filter(([path]) => /^\/base\/\d+\/\d+$/.test(path))
        let largest = tables[0]!
        for (const table of tables) if ((await sizeOf(table[1])) > (await sizeOf(largest[1]))) largest = table
        return data.removeEntry(largest[1])
      }
      const wal = [...files]
        .filter(([path]) => /^\/pg_wal\/[0-9A-F]{24}$/.test(path))
        .sort(([a], [b]) => (a < b ? -1 : 1))
      let isLast = true
      for (const [, backing] of wal.reverse())
        await rewrite(await data.getFileHandle(backing), (bytes) => {
          if (how === 'WAL cut short') return bytes.slice(0, 40)
          const end = bytes.findLastIndex((byte) => byte !== 0)
          if (end < 0 || !isLast) return bytes
          isLast = false
          return bytes.fill(0, Math.max(0, end - 40_000))
        })
    },
    [name, how] as const,
  )
}
