import type { Database } from '../../../geo/store/database.ts'
import { readStacks } from '../../../geo/store/undo.ts'
import type { History } from '../door.ts'

/** The labels of the nearest steps that can be taken back and done again. */
export async function readHistory(db: Database): Promise<History> {
  const { undo, redo } = await readStacks(db)
  return { undo: undo.at(-1)?.label ?? null, redo: redo.at(-1)?.label ?? null }
}
