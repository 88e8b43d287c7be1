import { takeBase } from '../../../geo/keep/copies.ts'
import { openLog } from '../../../geo/keep/stepLog.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import type { Database } from '../../../geo/store/database.ts'
import type { Start } from '../engine/engines.ts'
import { copyFarm, haveCopied } from './copyFarm.ts'
import { databaseName, farmFolder, type KeptEntry } from './entry.ts'
import type { FarmInHand, Keeper } from './keeper.ts'
import { letGo } from './letGo.ts'
import { lockFarm } from './lockFarm.ts'
import { takeInHand } from './openFarm.ts'
import { removeFarm } from './removeFarm.ts'

/** What a new farm is filled with: its name once it is known, and what the person must be told. */
export interface Founded {
  readonly name: string
  readonly notices: readonly string[]
  /** A farm that comes ready-made brings its first logical copy. */
  readonly copy?: Uint8Array
}

/**
 * Makes a new farm on this device and takes it in hand. `fill` writes its first state into a database fresh from a
 * template, or what the template lacks; the first logical copy of that is what the step log builds on. Where `fill` throws, nothing stays.
 */
export async function foundFarm(
  keeper: Keeper,
  from: Exclude<Start, 'there'>,
  fill: (db: Database, folder: string) => Promise<Founded>,
): Promise<FarmInHand> {
  await letGo(keeper)
  const madeMs = keeper.nowMs()
  const id = uuid7(madeMs, keeper.random(10))
  const storage = await keeper.storageForNew()
  const lock = await lockFarm(keeper, { id, name: 'The new farm' }, false)
  const start: KeptEntry = {
    id,
    name: '',
    invented: from === 'demo',
    madeMs,
    openedMs: madeMs,
    storage,
    data: 1,
    wrecks: [],
    suspect: null,
    copiedTo: '',
  }
  let db: Database | null = null
  try {
    db = await keeper.engines[storage].open(databaseName(start), from)
    const { name, notices, copy } = await fill(db, farmFolder(id))
    const log = await openLog(keeper.shelf, farmFolder(id))
    const farm = await takeInHand(keeper, { entry: { ...start, name }, db, log, lock, notices })
    if (copy) await haveCopied(keeper, farm, await takeBase(keeper.shelf, farmFolder(id), copy, madeMs))
    else await copyFarm(keeper, farm, async () => true)
    return farm
  } catch (error) {
    keeper.inHand = null
    await db?.close().catch(() => undefined)
    await removeFarm(keeper, start).catch(() => undefined)
    lock.release()
    throw error
  }
}
