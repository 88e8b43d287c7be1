import type { Database } from './database.ts'
import { backward, doChanges, type Step } from './step.ts'

/**
 * Takes the last step out of the farm as if it had never been, out of the journal too: for a step that could not be
 * confirmed, of which nobody was told. What is to be taken back for a person is undone by a step of its own.
 */
export async function withdrawStep(db: Database, step: Step): Promise<void> {
  await db.transaction(async (tx) => {
    await doChanges(tx, step.id, backward(step.changes))
    const gone = await tx.rows('delete from steps where id = $1 returning id', [step.id])
    if (gone.length !== 1) throw new Error(`step ${step.id} was to be withdrawn but is not there`)
  })
}
