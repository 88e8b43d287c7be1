import type { Shelf } from '../../../geo/keep/shelf.ts'
import { farmIds, type KeptEntry, readEntry } from './entry.ts'

/** The farms on this device, the last opened first. */
export async function listEntries(shelf: Shelf): Promise<KeptEntry[]> {
  const entries: KeptEntry[] = []
  for (const id of await farmIds(shelf)) {
    const entry = await readEntry(shelf, id)
    if (entry) entries.push(entry)
  }
  return entries.sort((a, b) => b.openedMs - a.openedMs)
}
