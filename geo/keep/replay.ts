import { type Database, quoted } from '../store/database.ts'
import { TABLES } from '../store/row.ts'
import { type Step, writeStep } from '../store/step.ts'

const BATCH = 100

/**
 * Does steps again, those that are not in the journal yet: a hundred together, and one by one where that fails. Tells
 * the labels of those that could not be done.
 */
export async function replay(db: Database, steps: readonly Step[]): Promise<string[]> {
  const failed: string[] = []
  for (let from = 0; from < steps.length; from += BATCH) {
    const batch = steps.slice(from, from + BATCH)
    if (await done(db, batch)) continue
    for (const step of batch) if (!(await done(db, [step]))) failed.push(step.label)
  }
  return failed
}

function done(db: Database, steps: readonly Step[]): Promise<boolean> {
  const doing = db.transaction(async (tx) => {
    for (const step of steps) {
      const there = await tx.rows('select 1 from steps where id = $1', [step.id])
      if (there.length === 0) await writeStep(tx, step)
    }
    await keepOrder(tx)
  })
  return doing.then(
    () => true,
    () => false,
  )
}

/** Lets new records go behind all that are there. */
export async function keepOrder(tx: Database): Promise<void> {
  const highest = TABLES.map((kind) => `select max(ord) as ord from ${quoted(kind.name)}`).join(' union all ')
  await tx.rows(
    `select setval('record_order', greatest((select last_value from record_order), (select max(ord) from (${highest}) t)))`,
  )
}
