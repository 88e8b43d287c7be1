import { z } from 'zod'
import { readByTurns, writeByTurns } from '../../../geo/keep/byTurns.ts'
import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { FarmEntry } from '../door.ts'

const schema = z.object({
  id: z.string(),
  name: z.string(),
  invented: z.boolean(),
  madeMs: z.number(),
  openedMs: z.number(),
  storage: z.enum(['opfs', 'idb']),
  /** Which of the farm's databases is in use: 1, and one more each time it was made anew. */
  data: z.int(),
  /** Databases that did not open, kept aside. */
  wrecks: z.array(z.object({ data: z.int(), atMs: z.number(), why: z.string() })),
  /** True when the database was found damaged in use: the next opening makes it anew. */
  suspect: z.string().nullable(),
  /** Clock of the newest step in a logical copy. */
  copiedTo: z.string(),
})

/** What is known of a farm on this device without opening it. Written only by the worker that has the farm's lock. */
export type KeptEntry = Readonly<z.infer<typeof schema>>

/** Where a farm's files lie on the shelf. */
export const farmFolder = (id: string) => `farms/${id}`
/** The name of one of a farm's databases. */
export const databaseName = (entry: Pick<KeptEntry, 'id' | 'data'>, data = entry.data) => `${entry.id}-${data}`

/** What the page is told of an entry. */
export function shownEntry({ id, name, invented, madeMs, openedMs, storage }: KeptEntry): FarmEntry {
  return { id, name, invented, madeMs, openedMs, storage }
}

/** A farm's entry, or null where none can be read. */
export async function readEntry(shelf: Shelf, id: string): Promise<KeptEntry | null> {
  const read = schema.safeParse(await readByTurns(shelf, `${farmFolder(id)}/entry`))
  return read.success ? read.data : null
}

export function writeEntry(shelf: Shelf, entry: KeptEntry): Promise<void> {
  return writeByTurns(shelf, `${farmFolder(entry.id)}/entry`, entry)
}

/** Ids of all farms that have files on the shelf, with an entry or without. */
export async function farmIds(shelf: Shelf): Promise<string[]> {
  const names = await shelf.list('farms/')
  return [...new Set(names.map((name) => name.split('/')[1]!))]
}
