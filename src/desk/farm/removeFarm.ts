import { databaseName, farmFolder, type KeptEntry } from './entry.ts'
import type { Keeper } from './keeper.ts'

/** Removes a farm from this device for good: databases, wrecks, log, copies, photos; its entry goes last. The caller has its lock. */
export async function removeFarm(keeper: Keeper, entry: KeptEntry): Promise<void> {
  const engines = keeper.engines[entry.storage]
  for (const data of [...entry.wrecks.map((wreck) => wreck.data), entry.data])
    await engines.remove(databaseName(entry, data))
  const names = await keeper.shelf.list(`${farmFolder(entry.id)}/`)
  const isEntry = (name: string) => name.startsWith(`${farmFolder(entry.id)}/entry`)
  for (const name of [...names.filter((n) => !isEntry(n)), ...names.filter(isEntry)]) await keeper.shelf.remove(name)
}
