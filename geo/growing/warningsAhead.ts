import type { Database } from '../store/database.ts'
import type { Edit } from '../store/edit.ts'
import { addYears } from './days.ts'
import { readGround } from './readGround.ts'
import type { Stand } from './stand.ts'
import { allWarnings } from './warnings/allWarnings.ts'
import type { Warning } from './warnings/warning.ts'
import { withEdits } from './withEdits.ts'

/**
 * The warnings of what stands on a day and of what is set out within a year of it, of the whole farm or of the beds named;
 * of raw manure only where its days to harvest are not over yet, or a pick fell into them.
 * With edits: as if these were kept, and only the warnings of the plantings in them and those of others that speak of them.
 */
export async function warningsAhead(
  db: Database,
  on: string,
  beds: readonly string[] | null,
  edits: readonly Edit[] = [],
): Promise<Warning[]> {
  const scope = beds && [...new Set([...beds, ...(await bedsOf(db, edits))])]
  const ground = withEdits(await readGround(db, scope), edits)
  if (edits.length === 0) {
    const soon = addYears(on, 1)
    return allWarnings(ground, on, ({ planting }) => !isOver(planting.cleared, on) && planting.set_out < soon).filter(
      (warning) => isAhead(warning, on),
    )
  }
  const asked = new Set(
    edits.filter((edit) => edit.kind === 'plantings').map((edit) => (edit.do === 'add' ? edit.record.id : edit.id)),
  )
  const touched = new Set(beds ?? [])
  const near = (stand: Stand) => asked.has(stand.planting.id) || touched.size === 0 || touched.has(stand.bed)
  return allWarnings(ground, on, near).filter(
    (warning) =>
      isAhead(warning, on) &&
      (asked.has(warning.planting) || ('other' in warning && asked.has(warning.other.planting))),
  )
}

const isOver = (cleared: string | null, on: string) => cleared !== null && cleared <= on

/** Years of dressings lie behind what stands for years: what was to be waited for then, and was, is no warning now. */
const isAhead = (warning: Warning, on: string) =>
  warning.kind !== 'manure' || warning.harvest?.how === 'picked' || warning.notBefore > on

/** The beds that edits touch: those the plantings stand in now, and those they are put in. */
async function bedsOf(db: Database, edits: readonly Edit[]): Promise<string[]> {
  const plantings = edits.filter((edit) => edit.kind === 'plantings')
  if (plantings.length === 0) return []
  const told = plantings.flatMap((edit) => (edit.do === 'remove' ? [] : [edit.do === 'add' ? edit.record : edit.to]))
  const texts = (field: string) => told.map((record) => record[field]).filter((value) => typeof value === 'string')
  const rows = await db.rows<{ bed: string }>(
    `select bed from rows where id = any($1)
     union select coalesce(r.bed, p.bed) from plantings p left join rows r on r.id = p.row where p.id = any($2)`,
    [texts('row'), plantings.flatMap((edit) => (edit.do === 'add' ? [] : [edit.id]))],
  )
  return [...texts('bed'), ...rows.map(({ bed }) => bed)]
}
