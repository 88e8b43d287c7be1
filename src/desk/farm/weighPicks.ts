import { kgPerUnit, type Weight } from '../../../geo/model/weigh.ts'
import { type Database, quoted } from '../../../geo/store/database.ts'
import type { Edit } from '../../../geo/store/edit.ts'

/** Gives new picks, and picks told in another unit or place, the weight of their unit, unless the edit says one. */
export async function weighPicks(db: Database, edits: readonly Edit[]): Promise<readonly Edit[]> {
  if (!edits.some(isUnweighed)) return edits
  const weights = [...(await db.rows<Weight>('select unit, kg, crop from containers')), ...newWeights(edits)]
  const weighed: Edit[] = []
  for (const edit of edits) {
    if (!isUnweighed(edit) || edit.do === 'remove') {
      weighed.push(edit)
      continue
    }
    const id = edit.do === 'add' ? edit.record.id : edit.id
    const unit = await told(db, edits, 'picks', id, 'unit')
    const planting = await told(db, edits, 'picks', id, 'planting')
    const variety = await told(db, edits, 'plantings', planting, 'variety')
    const crop = await told(db, edits, 'varieties', variety, 'crop')
    const kg_per_unit = kgPerUnit(unit ?? '', crop, weights)
    weighed.push(
      edit.do === 'add'
        ? { ...edit, record: { ...edit.record, kg_per_unit } }
        : { ...edit, to: { ...edit.to, kg_per_unit } },
    )
  }
  return weighed
}

function isUnweighed(edit: Edit): boolean {
  if (edit.kind !== 'picks' || edit.do === 'remove') return false
  if (edit.do === 'add') return edit.record.kg_per_unit == null
  return !('kg_per_unit' in edit.to) && ('unit' in edit.to || 'planting' in edit.to)
}

function newWeights(edits: readonly Edit[]): Weight[] {
  return edits.flatMap((edit) =>
    edit.do === 'add' && edit.kind === 'containers' ? [edit.record as unknown as Weight] : [],
  )
}

/** What a record says once the edits are done: they may make or change it in the same step. */
async function told(
  db: Database,
  edits: readonly Edit[],
  kind: string,
  id: string | null,
  column: string,
): Promise<string | null> {
  if (id === null) return null
  for (const edit of edits.toReversed()) {
    if (edit.kind !== kind) continue
    if (edit.do === 'add' && edit.record.id === id) return (edit.record[column] as string | undefined) ?? null
    if (edit.do === 'change' && edit.id === id && column in edit.to) return (edit.to[column] as string | null) ?? null
  }
  const [row] = await db.rows<{ value: string | null }>(
    `select ${quoted(column)} as value from ${quoted(kind)} where id = $1`,
    [id],
  )
  return row?.value ?? null
}
