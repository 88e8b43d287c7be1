import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import type { Change, Step } from '../store/step.ts'
import type { ReadLog, StepLog } from './stepLog.ts'

/**
 * Compares a database with the log beside it, as far back as both agree. Steps that only the database has (it was
 * ended between commit and log) are put into the log. Steps that only the log has come back, for the caller to
 * `replay` or to rebuild: they were confirmed, so a database without them is damaged.
 */
export async function reconcile(db: Database, log: StepLog): Promise<Step[]> {
  const { read, since } = await commonGround(db, log)
  const logged = read.steps.map((step) => step.id)
  const both = new Set(
    (await db.rows<{ id: string }>('select id from steps where id = any($1)', [logged])).map((r) => r.id),
  )
  const known = new Set(logged)
  const onlyHere = (await readJournal(db, since)).filter((step) => !known.has(step.id))
  const origin = since === null && read.plane === null ? await readOrigin(db) : null
  await log.append([...(origin ? [{ plane: origin }] : []), ...onlyHere.map((step) => ({ step }))])
  return read.steps.filter((step) => !both.has(step.id))
}

/** The log from the newest segment on whose step before it the database has, and that step. */
async function commonGround(db: Database, log: StepLog): Promise<{ read: ReadLog; since: string | null }> {
  const segments = await log.segments()
  for (const first of [...segments].reverse()) {
    const read = await log.read(first)
    if (read.after === null) continue
    const there = await db.rows('select 1 from steps where id = $1', [read.after])
    if (there.length > 0) return { read, since: read.after }
  }
  return { read: await log.read(1), since: null }
}

/** The journal's steps after one, or all of them. */
async function readJournal(db: Database, after: string | null): Promise<Step[]> {
  const heads = await db.rows<Omit<Step, 'changes'>>(
    `select id, clock, device, author, label, undoes from steps
     where $1::text is null or ord > (select ord from steps where id = $1) order by ord`,
    [after],
  )
  const changes = await db.rows<Change & { step: string }>(
    `select c.step, c.kind, c.record, c.before, c.after from changes c join steps s on s.id = c.step
     where $1::text is null or s.ord > (select ord from steps where id = $1) order by s.ord, c.n`,
    [after],
  )
  const byStep = new Map<string, Change[]>()
  for (const { step, ...change } of changes) {
    const of = byStep.get(step)
    if (of) of.push(change)
    else byStep.set(step, [change])
  }
  return heads.map((head) => ({ ...head, changes: byStep.get(head.id) ?? [] }))
}
