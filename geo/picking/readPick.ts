import { type Pick, picks } from '../model/picks.ts'
import { type Share, shares } from '../model/shares.ts'
import type { Database } from '../store/database.ts'
import { fromStored, readStored } from '../store/row.ts'
import type { PlantingNamed } from './nearPlantings.ts'
import { plantingNamed } from './plantingNamed.ts'

/** A pick with its shares and its place by name, as it is opened to be put right. */
export interface PickInFull {
  readonly pick: Pick
  readonly shares: readonly Share[]
  readonly planting: PlantingNamed | null
  readonly bedName: string | null
}

/** Null where there is no such pick (any more). */
export async function readPick(db: Database, id: string): Promise<PickInFull | null> {
  const [row] = await readStored(db, picks, { by: 'id', values: [id] })
  if (!row) return null
  const pick = fromStored(row) as unknown as Pick
  const given = await readStored(db, shares, { by: 'pick', values: [id] })
  const [bed] = await db.rows<{ name: string }>('select name from beds where id = $1', [pick.bed])
  return {
    pick,
    shares: given.map(fromStored) as unknown as Share[],
    planting: pick.planting === null ? null : await plantingNamed(db, pick.planting),
    bedName: bed?.name ?? null,
  }
}
