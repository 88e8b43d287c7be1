import type { DirectoryNode, Node } from '@electric-sql/pglite/opfs-ahp'
import { openEmbedded } from '../../../geo/store/embedded.ts'
import { engineOptions } from '../../../geo/store/template/engineOptions.ts'
import { entriesInTar } from '../../../geo/store/template/tar.ts'
import { Refusal } from '../refusal.ts'
import { openHandle } from '../shelf/accessHandle.ts'
import { folderAt, removeEntry } from '../shelf/opfsShelf.ts'
import type { Engines, Standing } from './engines.ts'
import type { EngineFetch } from './fetchEngine.ts'
import { OpfsFiles } from './opfsFiles.ts'

/** Databases in the origin's private files, through one access handle a file. Dedicated worker only. */
export function opfsEngines(folder: string, fetched: EngineFetch): Engines {
  const path = (name: string) => `${folder}/${name}`
  return {
    storage: 'opfs',
    look: (name) => look(path(name)),
    async open(name, start) {
      const fs = new OpfsFiles(path(name))
      try {
        // The files are opened and laid out while the engine comes.
        const engine = fetched.engine()
        engine.catch(() => undefined)
        await fs.openFiles()
        if (start !== 'there') await fs.layOut(entriesInTar(await fetched.template(start)))
        const { parts, options } = await engine
        return await openEmbedded({ ...engineOptions(parts), ...options, fs })
      } catch (error) {
        await fs.letGo()
        throw error
      }
    },
    remove: (name) => removeEntry(path(name)),
    async list() {
      const names: string[] = []
      const directory = await folderAt(folder, false).catch(() => null)
      if (directory) for await (const name of directory.keys()) names.push(name)
      return names
    },
  }
}

/**
 * Reads the engine's own list of files and looks whether each is there: with one missing the engine would not fail but
 * hang.
 */
async function look(path: string): Promise<Standing> {
  const directory = await folderAt(path, false)
  if (!directory) return 'nothing'
  const text = await readState(directory)
  if (text === null) return 'nothing'
  const fs = new OpfsFiles(path)
  try {
    const [state, ...changes] = text.split('\n').filter(Boolean)
    fs.state = JSON.parse(state ?? '')
    for (const change of changes) {
      const { opp, args } = JSON.parse(change) as { opp: string; args: unknown[] }
      const does = (fs as unknown as Record<string, ((...args: unknown[]) => void) | undefined>)[`_${opp}State`]
      does?.call(fs, ...args)
    }
  } catch {
    return { broken: 'its list of files is damaged' }
  }
  const data = await folderAt(`${path}/data`, false)
  const there = new Set<string>()
  if (data) for await (const name of data.keys()) there.add(name)
  const gone = [...filesOf(fs.state.root), ...fs.state.pool.map((name) => ({ path: 'a spare file', name }))].find(
    (file) => !there.has(file.name),
  )
  if (gone) return { broken: `${gone.path} is gone` }
  return 'PG_VERSION' in fs.state.root.children ? 'database' : { broken: 'it was never finished' }
}

async function readState(directory: FileSystemDirectoryHandle): Promise<string | null> {
  try {
    const file = await directory.getFileHandle('state.txt')
    const handle = await openHandle(file)
    const bytes = new Uint8Array(handle.getSize())
    handle.read(bytes, { at: 0 })
    handle.close()
    return new TextDecoder().decode(bytes)
  } catch (error) {
    const { name } = error as DOMException
    if (name === 'NotFoundError') return null
    if (name === 'NoModificationAllowedError')
      throw new Refusal('locked', 'Another tab or window still holds the files of this farm. Close it and try again.')
    throw error
  }
}

function* filesOf(folder: DirectoryNode, within = ''): Generator<{ path: string; name: string }> {
  for (const [name, node] of Object.entries(folder.children) as [string, Node][])
    if (node.type === 'file') yield { path: within + name, name: node.backingFilename }
    else yield* filesOf(node, `${within}${name}/`)
}
