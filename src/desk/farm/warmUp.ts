import { beds } from '../../../geo/model/beds.ts'
import { fields } from '../../../geo/model/fields.ts'
import { readStored } from '../../../geo/store/row.ts'
import { writeStep } from '../../../geo/store/step.ts'
import { changedBy } from './changedBy.ts'
import type { FarmInHand } from './keeper.ts'

const TAKEN_BACK = new Error('taken back')

/**
 * Writes a bed, or a field, as it is, reads what that touched, and takes it back, twice: the engine compiles what an edit
 * needs when it is first needed, and keeps its statements ready when they come again, which makes the first edits several
 * times slower than all others.
 */
export async function warmUp(farm: FarmInHand, on: string): Promise<void> {
  const warming = farm.db.transaction(async (tx) => {
    for (const kind of [beds, fields]) {
      const [row] = await readStored(tx, kind)
      if (!row) continue
      const geom = { geom: row.geom }
      const changes = [{ kind: kind.name, record: row.id, before: geom, after: geom }]
      for (const id of ['warm-up 1', 'warm-up 2']) {
        const step = { id, clock: id, device: '', author: null, label: '', undoes: null, changes }
        await writeStep(tx, step)
        await changedBy({ ...farm, db: tx }, step, on)
      }
      break
    }
    throw TAKEN_BACK
  })
  await warming.catch((error: unknown) => {
    if (error !== TAKEN_BACK) throw error
  })
}
