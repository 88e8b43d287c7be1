import { readCopies } from '../../../geo/keep/copies.ts'
import { farm as farmKind } from '../../../geo/model/farm.ts'
import { databaseName, farmFolder, farmIds, type KeptEntry, readEntry, writeEntry } from './entry.ts'
import type { Keeper } from './keeper.ts'

/**
 * Looks for remains that no entry names. A folder with a logical copy is a farm whose entry was lost, and gets one
 * again; any other, and any database that nothing names, was never finished and is removed. What another tab is at work
 * on is left alone.
 */
export async function tidy(keeper: Keeper): Promise<void> {
  const named = new Set<string>()
  for (const id of await farmIds(keeper.shelf)) {
    const entry = (await readEntry(keeper.shelf, id)) ?? (await withLock(keeper, id, () => adoptOrRemove(keeper, id)))
    for (const data of entry ? [entry.data, ...entry.wrecks.map((wreck) => wreck.data)] : [])
      named.add(databaseName(entry!, data))
  }
  for (const engines of Object.values(keeper.engines))
    for (const name of await engines.list())
      if (!named.has(name)) await withLock(keeper, name.replace(/-\d+$/, ''), () => engines.remove(name))
}

async function adoptOrRemove(keeper: Keeper, id: string): Promise<KeptEntry | null> {
  const [copy] = await readCopies(keeper.shelf, farmFolder(id))
  if (copy) {
    const opfs = await keeper.engines.opfs.list()
    const storage = opfs.some((name) => name.startsWith(`${id}-`)) ? 'opfs' : await keeper.storageForNew()
    const known = (await keeper.engines[storage].list()).filter((name) => name.startsWith(`${id}-`))
    const data = Math.max(1, ...known.map((name) => Number(name.slice(id.length + 1))))
    const name = String(copy.rows.get(farmKind.name)?.[0]?.name ?? 'Farm')
    const entry: KeptEntry = {
      id,
      name,
      invented: false,
      madeMs: copy.madeMs,
      openedMs: copy.madeMs,
      storage,
      data,
      wrecks: [],
      suspect: null,
      copiedTo: copy.clock,
    }
    await writeEntry(keeper.shelf, entry)
    return entry
  }
  for (const file of await keeper.shelf.list(`${farmFolder(id)}/`)) await keeper.shelf.remove(file)
  return null
}

async function withLock<T>(keeper: Keeper, id: string, work: () => Promise<T>): Promise<T | null> {
  const lock = await keeper.takeFarm(id, false, { onAsked: () => undefined, onTaken: () => undefined })
  if (!lock) return null
  try {
    return await work()
  } finally {
    lock.release()
  }
}
