import { readCopies } from '../../../geo/keep/copies.ts'
import { probe } from '../../../geo/keep/probe.ts'
import { type Rebuilt, rebuild } from '../../../geo/keep/rebuild.ts'
import type { StepLog } from '../../../geo/keep/stepLog.ts'
import type { Database } from '../../../geo/store/database.ts'
import { UnknownSchema } from '../../../geo/store/migrate.ts'
import type { Engines } from '../engine/engines.ts'
import { Refusal } from '../refusal.ts'
import { databaseName, farmFolder, type KeptEntry, writeEntry } from './entry.ts'
import type { Keeper } from './keeper.ts'

/** So many broken databases are kept aside for somebody to look at; older ones go, since each is some 50 MB. */
const WRECKS = 2

/**
 * Sets a farm's broken database aside and makes a new one from the template, the newest sound logical copy, and the
 * steps of the log. The entry names the new one only when it is whole, so that an end in the middle costs nothing.
 */
export async function makeAnew(
  keeper: Keeper,
  entry: KeptEntry,
  log: StepLog,
  why: string,
): Promise<{ db: Database; entry: KeptEntry; notices: readonly string[] }> {
  const { shelf } = keeper
  const folder = farmFolder(entry.id)
  const engines = keeper.engines[entry.storage]
  if ((await log.segments()).length === 0 && (await readCopies(shelf, folder)).length === 0)
    throw new Refusal(
      'storage',
      `The database of ${entry.name} does not open (${why}), and nothing was kept beside it.`,
    )
  const data = entry.data + 1
  const name = databaseName(entry, data)
  await engines.remove(name)
  const db = await engines.open(name, 'new')
  const rebuilt = await filled(db, () => rebuild(db, shelf, folder, log))
  const wrecks = [...entry.wrecks, { data: entry.data, atMs: keeper.nowMs(), why }]
  const kept = { ...entry, data, wrecks: wrecks.slice(-WRECKS), suspect: null }
  await writeEntry(shelf, kept)
  await forget(engines, entry, wrecks.slice(0, -WRECKS))
  return { db, entry: kept, notices: [noticeOf(entry, why, rebuilt)] }
}

/** Fills a new database and looks it through; where that fails it is closed, and the next try begins again. */
async function filled(db: Database, fill: () => Promise<Rebuilt>): Promise<Rebuilt> {
  try {
    const rebuilt = await fill()
    await probe(db)
    return rebuilt
  } catch (error) {
    await db.close().catch(() => undefined)
    throw error instanceof UnknownSchema ? new Refusal('storage', error.message) : error
  }
}

async function forget(engines: Engines, entry: KeptEntry, wrecks: KeptEntry['wrecks']): Promise<void> {
  for (const wreck of wrecks) await engines.remove(databaseName(entry, wreck.data)).catch(() => undefined)
}

function noticeOf(entry: KeptEntry, why: string, { copyMs, steps, failed, spoilt }: Rebuilt): string {
  const counted = steps === 1 ? 'one step' : `${steps} steps`
  const from =
    copyMs === null
      ? `from its step log (${counted})`
      : `from the copy of ${new Date(copyMs).toLocaleString()} and ${steps === 0 ? 'no step' : counted} after it`
  const lost =
    failed.length === 0 && spoilt === 0
      ? 'Nothing that was confirmed is lost.'
      : `The step log is damaged too: ${failed.length + spoilt} of its steps could not be done again${failed.length > 0 ? ` (${[...new Set(failed)].slice(0, 5).join(', ')})` : ''}. Look the farm through.`
  return `The database of ${entry.name} did not open (${why}). It was made anew ${from}. ${lost} The broken database is kept aside as ${databaseName(entry)}.`
}
