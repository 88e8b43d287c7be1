import { beds } from '../../../geo/model/beds.ts'
import { fields } from '../../../geo/model/fields.ts'
import { readStored } from '../../../geo/store/row.ts'
import { writeStep } from '../../../geo/store/step.ts'
import { changedBy } from './changedBy.ts'
import type { FarmInHand } from './keeper.ts'

const TAKEN_BACK = new Error('taken back')

/**
 * Writes a bed, or a field, as it is, reads what that touched, and takes it back: the engine compiles and plans what an
 * edit needs when it is first needed, which makes the first edit several times slower than all others.
 */
export async function warmUp(farm: FarmInHand, on: string): Promise<void> {
  const warming = farm.db.transaction(async (tx) => {
    for (const kind of [beds, fields]) {
      const [row] = await readStored(tx, kind)
      if (!row) continue
      const geom = { geom: row.geom }
      const step = {
        id: 'warm-up',
        clock: 'warm-up',
        device: '',
        author: null,
        label: '',
        undoes: null,
        changes: [{ kind: kind.name, record: row.id, before: geom, after: geom }],
      }
      await writeStep(tx, step)
      await changedBy({ ...farm, db: tx }, step, on)
      break
    }
    throw TAKEN_BACK
  })
  await warming.catch((error: unknown) => {
    if (error !== TAKEN_BACK) throw error
  })
}
