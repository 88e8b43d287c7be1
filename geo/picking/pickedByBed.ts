import type { Database } from '../store/database.ts'
import { type Days, PICK_BED, PICK_PLACES } from './pickPlaces.ts'

/** What a bed gave; `bed` null: spots that lie in no bed. */
export interface BedPicked {
  readonly bed: string | null
  readonly name: string | null
  readonly field: string | null
  readonly kg: number
  readonly picks: number
  readonly last: string
}

/** Picked mass by bed, the most first. */
export async function pickedByBed(db: Database, { from, to }: Days): Promise<BedPicked[]> {
  return db.rows<BedPicked>(
    `select b.id as bed, b.name, f.name as field, g.kg, g.picks, g.last from (
       select ${PICK_BED} as bed, coalesce(sum(k.kg), 0) as kg, count(*)::integer as picks, max(k."on") as last
       from picks k ${PICK_PLACES}
       where k."on" between $1::date and $2::date group by 1
     ) g left join beds b on b.id = g.bed left join fields f on f.id = b.field
     order by g.kg desc, b.ord`,
    [from, to],
  )
}
