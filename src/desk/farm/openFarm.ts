import { probe } from '../../../geo/keep/probe.ts'
import { reconcile } from '../../../geo/keep/reconcile.ts'
import { replay } from '../../../geo/keep/replay.ts'
import { openLog, type StepLog } from '../../../geo/keep/stepLog.ts'
import type { Database } from '../../../geo/store/database.ts'
import { isDamage } from '../damage.ts'
import type { Engines } from '../engine/engines.ts'
import { isFull } from '../noRoom.ts'
import { Refusal } from '../refusal.ts'
import { within } from '../within.ts'
import { bringUp } from './bringUp.ts'
import { databaseName, farmFolder, type KeptEntry, readEntry, writeEntry } from './entry.ts'
import type { FarmInHand, Keeper } from './keeper.ts'
import { letGo } from './letGo.ts'
import { lockFarm } from './lockFarm.ts'
import { makeAnew } from './makeAnew.ts'

/** How long a start or a look through may take before the database counts as broken; shorter than the page waits. */
const START_MS = 40_000

interface Opened {
  readonly db: Database
  readonly entry: KeptEntry
  readonly notices: readonly string[]
}

/**
 * Takes a farm in hand: its database, brought to this version's schema and together with its log. One that does not
 * open, or lacks what was confirmed, is set aside and made anew from the logical copy and the log. `rebuild`: it is
 * known already not to open.
 */
export async function openFarm(
  keeper: Keeper,
  id: string,
  how: { takeOver: boolean; rebuild: boolean },
): Promise<FarmInHand> {
  const known = await readEntry(keeper.shelf, id)
  if (!known) throw new Refusal('not found', 'This farm is not on this device.')
  await letGo(keeper)
  const lock = await lockFarm(keeper, known, how.takeOver)
  try {
    const entry = (await readEntry(keeper.shelf, id)) ?? known
    const log = await openLog(keeper.shelf, farmFolder(id))
    const opened = await openOrMakeAnew(keeper, entry, log, how.rebuild)
    const openedEntry = { ...opened.entry, openedMs: keeper.nowMs() }
    // That it was opened now need not be kept where there is no room: the farm must open, if only to be saved elsewhere.
    await writeEntry(keeper.shelf, openedEntry).catch(unlessFull)
    return await takeInHand(keeper, { ...opened, entry: openedEntry, log, lock })
  } catch (error) {
    lock.release()
    throw error
  }
}

/** The farm in hand, once its database is open and agrees with its log. */
export async function takeInHand(
  keeper: Keeper,
  with_: Pick<FarmInHand, 'entry' | 'db' | 'log' | 'lock' | 'notices'>,
): Promise<FarmInHand> {
  const [at] = await with_.db.rows<{ clock: string | null; since: number }>(
    'select max(clock) as clock, count(*) filter (where clock > $1) as since from steps',
    [with_.entry.copiedTo],
  )
  keeper.inHand = { ...with_, isPlaced: false, clock: at?.clock ?? null, stepsSinceCopy: at?.since ?? 0, steps: 0 }
  return keeper.inHand
}

async function openOrMakeAnew(keeper: Keeper, entry: KeptEntry, log: StepLog, rebuild: boolean): Promise<Opened> {
  const engines = keeper.engines[entry.storage]
  const opened = rebuild ? { broken: 'the engine did not answer' } : await openSound(engines, entry)
  if ('broken' in opened) return makeAnew(keeper, entry, log, opened.broken)
  const { db } = opened
  try {
    return await agree(keeper, entry, log, db)
  } catch (error) {
    await db.close().catch(() => undefined)
    if (isDamage(error)) return makeAnew(keeper, entry, log, error.message)
    throw error
  }
}

/** Brings an open database to this version's schema and to its log; makes it anew where it lacks what was confirmed. */
async function agree(keeper: Keeper, entry: KeptEntry, log: StepLog, db: Database): Promise<Opened> {
  const raised = await bringUp(keeper, entry, db)
  const missing = await db.transaction((tx) => reconcile(tx, log))
  if (missing.length === 0) return { db, entry: raised, notices: [] }
  const lacks = `it lacks ${missing.length} ${missing.length === 1 ? 'step' : 'steps'} that had been confirmed`
  if (entry.storage === 'opfs' || (await replay(db, missing)).length > 0) {
    await db.close()
    return makeAnew(keeper, raised, log, lacks)
  }
  const notice = `The farm's database had fallen behind: ${lacks}. They have been done again from the step log; nothing is lost.`
  return { db, entry: raised, notices: [notice] }
}

/** Opens a database and looks through it; what is wrong with it is told, what is wrong around it is thrown. */
async function openSound(engines: Engines, entry: KeptEntry): Promise<{ db: Database } | { broken: string }> {
  if (entry.suspect) return { broken: entry.suspect }
  const name = databaseName(entry)
  const standing = await engines.look(name)
  if (standing === 'nothing') return { broken: 'its files are gone' }
  if (standing !== 'database') return standing
  try {
    const db = await within(START_MS, 'starting', engines.open(name, 'there'))
    await within(START_MS, 'looking through it', probe(db))
    return { db }
  } catch (error) {
    if (error instanceof Refusal || isOfDevice(error)) throw error
    return { broken: whyOf(error) }
  }
}

/** What the engine said when it did not start; its own "Aborted()" tells nobody anything. */
function whyOf(error: unknown): string {
  const said = error instanceof Error ? error.message : String(error)
  return /^Aborted\b/.test(said) ? 'it broke off while starting' : said
}

/** True for errors that say nothing about the database: no room, no memory. */
function isOfDevice(error: unknown): boolean {
  return isFull(error) || isOutOfMemory(error)
}

function isOutOfMemory(error: unknown): boolean {
  return error instanceof RangeError && /memory/i.test(error.message)
}

function unlessFull(error: unknown): void {
  if (!isFull(error)) throw error
}
