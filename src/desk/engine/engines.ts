import type { Database } from '../../../geo/store/database.ts'

/** What stands under a database's name. `broken`: something that can't be opened, and why. */
export type Standing = 'nothing' | 'database' | { readonly broken: string }

/** What a database is opened from: what stands there, or a template, empty or with the demo farm. */
export type Start = 'there' | 'new' | 'demo'

/** Where this device keeps its databases. Bytes and engine are fetched when a database is first opened. */
export interface Engines {
  readonly storage: 'opfs' | 'idb'
  /** Looks from outside, without starting the engine. Throws a `Refusal` where another tab has the files open. */
  look(name: string): Promise<Standing>
  /** Opens the database that stands there, or a new one from a template where nothing does. */
  open(name: string, start: Start): Promise<Database>
  remove(name: string): Promise<void>
  /** Names of all databases that are here, whole or not. */
  list(): Promise<string[]>
}
