import type { Shelf } from '../../../geo/keep/shelf.ts'
import { hasAccessHandles } from '../engine/storage.ts'
import { idbShelf } from './idbShelf.ts'
import { opfsShelf } from './opfsShelf.ts'

/** The shelf of this browser's farms: in files where it has access handles, unless the page's address asks for IndexedDB. */
export async function openShelf(storage: string): Promise<{ readonly shelf: Shelf; readonly hasHandles: boolean }> {
  const hasHandles = storage !== 'idb' && (await hasAccessHandles())
  return { shelf: hasHandles ? opfsShelf('selion/shelf') : await idbShelf('selion-shelf'), hasHandles }
}
