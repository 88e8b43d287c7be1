import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { StepLog } from '../../../geo/keep/stepLog.ts'
import type { GridBook } from '../../../geo/photo/gridBook.ts'
import type { Database } from '../../../geo/store/database.ts'
import type { Migration } from '../../../geo/store/migrate.ts'
import type { DeskEvent } from '../door.ts'
import type { Engines } from '../engine/engines.ts'
import type { DemoParts } from '../engine/fetchDemo.ts'
import type { KeptEntry } from './entry.ts'
import type { FarmLock, takeFarm } from './farmLock.ts'
import type { RoomWatch } from './roomWatch.ts'

/** What the worker keeps farms with, and the farm that it has in hand. */
export interface Keeper {
  readonly shelf: Shelf
  readonly engines: Readonly<Record<'opfs' | 'idb', Engines>>
  /** Which of them a new farm is put into. */
  readonly storageForNew: () => Promise<'opfs' | 'idb'>
  readonly migrations: readonly Migration[]
  /** This device's name in the journal. */
  readonly device: string
  readonly nowMs: () => number
  readonly random: (bytes: number) => Uint8Array
  readonly takeFarm: typeof takeFarm
  /** Grids of the EPSG registry that photos may be in. */
  readonly grids: GridBook
  readonly fetchDemo: (signal: AbortSignal) => Promise<DemoParts>
  readonly say: (event: DeskEvent) => void
  /** False when the browser gives no room for another step. */
  readonly hasRoom: () => Promise<boolean>
  readonly room: RoomWatch
  inHand: FarmInHand | null
  /** Resolves when the requests that have come until now are settled. */
  settled: () => Promise<void>
}

/** The farm that is open. */
export interface FarmInHand {
  entry: KeptEntry
  readonly db: Database
  readonly log: StepLog
  readonly lock: FarmLock
  readonly notices: readonly string[]
  /** The journal's last clock reading. */
  clock: string | null
  /** True when the farm is known to have its plane, and to have recorded it. */
  isPlaced: boolean
  /** Steps since the newest logical copy. */
  stepsSinceCopy: number
  /** Counts steps, so that a copy under way can tell that there was one. */
  steps: number
}
