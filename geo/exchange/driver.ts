import type { FarmContent, Fault } from './archive.ts'

/** What a file gave: the farm, or null where nothing of it can be used; and what was left out or assumed, and why. */
export interface Brought {
  readonly content: FarmContent | null
  readonly notes: readonly Fault[]
}

/** One format that a farm comes in and goes out by. */
export interface Driver {
  readonly name: 'archive zip' | 'geojson'
  /** Ending of its files' names. */
  readonly ending: string
  read(bytes: Uint8Array): Promise<Brought>
  write(content: FarmContent): Promise<Uint8Array>
}
