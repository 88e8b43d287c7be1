import type { LonLat } from '../plane/lonLat.ts'
import type { Database } from '../store/database.ts'
import { gatherStatistics } from '../store/gatherStatistics.ts'
import { UnknownSchema } from '../store/migrate.ts'
import { insertStored, openStep, TABLES } from '../store/row.ts'
import { hasPlane, setPlane } from '../store/setPlane.ts'
import type { Step } from '../store/step.ts'
import { type Copy, readCopies } from './copies.ts'
import { keepOrder, replay } from './replay.ts'
import { restoreJournal } from './restoreJournal.ts'
import type { Shelf } from './shelf.ts'
import type { StepLog } from './stepLog.ts'

/** How a farm was made anew. */
export interface Rebuilt {
  /** When the copy was made that it started from; null where it was made from its steps alone. */
  readonly copyMs: number | null
  /** Steps done again on top of the copy. */
  readonly steps: number
  /** Labels of steps that could not be done again: only where the log itself is damaged. */
  readonly failed: readonly string[]
  /** Records of the log that could not be read. */
  readonly spoilt: number
}

/**
 * Fills a database that is fresh from the template: the newest sound copy, then every later step of the log through
 * `writeStep`. Where no copy will load, the log alone. The journal comes back whole, so that undo goes on. A copy is
 * loaded into today's schema: columns that came after it are empty. Throws `UnknownSchema` where a copy is newer than
 * this version.
 */
export async function rebuild(db: Database, shelf: Shelf, folder: string, log: StepLog): Promise<Rebuilt> {
  const { plane, steps, spoilt } = await log.read(1)
  const known = new Set((await db.rows<{ name: string }>('select name from migrations')).map((row) => row.name))
  for (const copy of await readCopies(shelf, folder)) {
    const newer = copy.migrations.find((name) => !known.has(name))
    if (newer) throw new UnknownSchema(`this farm was last opened by a newer version (${newer}): update Selion`)
    const earlier = steps.filter((step) => step.clock <= copy.clock)
    const later = steps.filter((step) => step.clock > copy.clock)
    await ensurePlane(db, copy.plane ?? plane)
    if (!(await loads(db, copy, earlier))) continue
    const failed = await replay(db, later)
    return { copyMs: copy.madeMs, steps: later.length - failed.length, failed, spoilt }
  }
  await ensurePlane(db, plane)
  const failed = await replay(db, steps)
  return { copyMs: null, steps: steps.length - failed.length, failed, spoilt }
}

function loads(db: Database, copy: Copy, earlier: readonly Step[]): Promise<boolean> {
  const loading = db.transaction(async (tx) => {
    await openStep(tx, 'rebuild')
    for (const kind of TABLES) await insertStored(tx, kind, copy.rows.get(kind.name) ?? [])
    await tx.rows('set constraints all immediate')
    await restoreJournal(tx, earlier)
    await keepOrder(tx)
    await gatherStatistics(tx)
  })
  return loading.then(
    () => true,
    () => false,
  )
}

async function ensurePlane(db: Database, plane: LonLat | null): Promise<void> {
  if (plane && !(await hasPlane(db))) await setPlane(db, plane)
}
