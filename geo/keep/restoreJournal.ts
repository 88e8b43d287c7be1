import type { Database } from '../store/database.ts'
import type { Step } from '../store/step.ts'

const BATCH = 2000

/**
 * Writes steps into the journal as they were taken, without doing them again: the records hold them already. A step
 * that takes back one which is not known is left out, as is one that is in the journal.
 */
export async function restoreJournal(tx: Database, steps: readonly Step[]): Promise<void> {
  const known = new Set((await tx.rows<{ id: string }>('select id from steps')).map((row) => row.id))
  const kept = steps.filter((step) => {
    if (known.has(step.id) || (step.undoes !== null && !known.has(step.undoes))) return false
    known.add(step.id)
    return true
  })
  for (let from = 0; from < kept.length; from += BATCH) {
    const heads = kept.slice(from, from + BATCH).map(({ changes: _, ...head }, n) => ({ n, ...head }))
    await tx.rows(
      `insert into steps (id, clock, device, author, label, undoes)
       select id, clock, device, author, label, undoes
       from jsonb_to_recordset($1::jsonb) as x(n integer, id text, clock text, device text, author text, label text, undoes text)
       order by n`,
      [JSON.stringify(heads)],
    )
  }
  const changes = kept.flatMap((step) => step.changes.map((change, n) => ({ step: step.id, n, ...change })))
  for (let from = 0; from < changes.length; from += BATCH)
    await tx.rows(
      `insert into changes (step, n, kind, record, before, after)
       select x.step, x.n, x.kind, x.record, nullif(x.before, 'null'), nullif(x.after, 'null')
       from jsonb_to_recordset($1::jsonb) as x(step text, n integer, kind text, record text, before jsonb, after jsonb)`,
      [JSON.stringify(changes.slice(from, from + BATCH))],
    )
}
