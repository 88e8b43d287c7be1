import { migrations } from 'virtual:selion-engine'
import { z } from 'zod'
import { readByTurns, writeByTurns } from '../../../geo/keep/byTurns.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import type { DeskEvent } from '../door.ts'
import { fetchDemo } from '../engine/fetchDemo.ts'
import type { EngineFetch } from '../engine/fetchEngine.ts'
import { idbEngines } from '../engine/idbEngines.ts'
import { opfsEngines } from '../engine/opfsEngines.ts'
import { hasHandlesForEngine } from '../engine/storage.ts'
import { fetchedGrids } from '../photo/fetchGrids.ts'
import { hasRoom, tellsRoom } from '../shelf/hasRoom.ts'
import { openShelf } from '../shelf/openShelf.ts'
import { takeFarm } from './farmLock.ts'
import type { Keeper } from './keeper.ts'
import { watchRoom } from './roomWatch.ts'

/** What a step, with the database's own log of writes and its files, may want at most in all likelihood. */
const STEP_BYTES = 16 * 1024 * 1024

const device = z.object({ id: z.string(), storage: z.enum(['opfs', 'idb']).nullable() })

/**
 * The keeper of this browser's farms. `storage` is what the page's address asks for: `idb` keeps all in IndexedDB,
 * `idb-engine` only the databases; anything else takes what the browser does best.
 */
export async function makeKeeper(
  storage: string,
  say: (event: DeskEvent) => void,
  fetched: EngineFetch,
): Promise<Keeper> {
  const { shelf, hasHandles } = await openShelf(storage)
  const random = (bytes: number) => crypto.getRandomValues(new Uint8Array(bytes))
  const known = device.safeParse(await readByTurns(shelf, 'device'))
  let own = known.success ? known.data : { id: uuid7(Date.now(), random(10)), storage: null }
  if (!known.success) await writeByTurns(shelf, 'device', own)
  const tried = hasHandles && own.storage === null ? hasHandlesForEngine() : null
  const roomFor = () => (hasHandles ? hasRoom(STEP_BYTES) : tellsRoom(STEP_BYTES))
  return {
    shelf,
    engines: { opfs: opfsEngines('selion/engines', fetched), idb: idbEngines(fetched) },
    async storageForNew() {
      if (!hasHandles || storage === 'idb-engine') return 'idb'
      if (own.storage) return own.storage
      own = { ...own, storage: (await tried) ? 'opfs' : 'idb' }
      await writeByTurns(shelf, 'device', own)
      return own.storage!
    },
    migrations,
    device: own.id,
    nowMs: Date.now,
    random,
    takeFarm,
    grids: fetchedGrids(),
    fetchDemo,
    say,
    hasRoom: roomFor,
    room: watchRoom(roomFor, Date.now),
    inHand: null,
    settled: () => Promise.resolve(),
  }
}
