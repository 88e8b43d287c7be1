import { kgPerUnit, type Weight } from '../../../geo/model/weigh.ts'
import type { Database } from '../../../geo/store/database.ts'
import type { Edit } from '../../../geo/store/edit.ts'

/** Gives new picks, and picks told in another unit or place, the weight of their unit, unless the edit says one. */
export async function weighPicks(db: Database, edits: readonly Edit[]): Promise<readonly Edit[]> {
  const isTold = (edit: Edit) =>
    edit.kind === 'picks' &&
    ((edit.do === 'add' && edit.record.kg_per_unit == null) ||
      (edit.do === 'change' && !('kg_per_unit' in edit.to) && ('unit' in edit.to || 'planting' in edit.to)))
  if (!edits.some(isTold)) return edits
  const weights = await db.rows<Weight>('select unit, kg, crop from containers')
  const weighed: Edit[] = []
  for (const edit of edits) {
    if (!isTold(edit) || edit.do === 'remove') weighed.push(edit)
    else if (edit.do === 'add') {
      const kg_per_unit = kgPerUnit(edit.record.unit as string, await cropOf(db, edits, edit.record.planting), weights)
      weighed.push({ ...edit, record: { ...edit.record, kg_per_unit } })
    } else {
      const [pick] = await db.rows<{ unit: string; planting: string | null }>(
        'select unit, planting from picks where id = $1',
        [edit.id],
      )
      const told = { ...pick, ...edit.to }
      const kg_per_unit = kgPerUnit(told.unit as string, await cropOf(db, edits, told.planting), weights)
      weighed.push({ ...edit, to: { ...edit.to, kg_per_unit } })
    }
  }
  return weighed
}

/** The crop of a planting, which may be made in the same step. */
async function cropOf(db: Database, edits: readonly Edit[], planting: unknown): Promise<string | null> {
  if (typeof planting !== 'string') return null
  const made = edits.find((e) => e.do === 'add' && e.kind === 'plantings' && e.record.id === planting)
  const variety = made?.do === 'add' ? made.record.variety : null
  const [found] = await db.rows<{ crop: string }>(
    `select v.crop from varieties v where v.id = coalesce($2, (select variety from plantings where id = $1))`,
    [planting, variety],
  )
  return found?.crop ?? null
}
