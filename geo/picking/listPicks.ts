import type { Database } from '../store/database.ts'
import { type Days, PICK_BED, PICK_PLACES } from './pickPlaces.ts'

/** A pick as a list shows it. */
export interface ListedPick {
  readonly id: string
  readonly on: string
  readonly crop: string | null
  readonly variety: string | null
  readonly bed: string | null
  readonly side: string | null
  readonly quantity: number
  readonly unit: string
  readonly kg: number | null
  readonly grade: string | null
  readonly picker: string | null
}

/** The picks of some days, the latest first; of one day those entered last first. */
export async function listPicks(db: Database, { from, to }: Days, most: number): Promise<ListedPick[]> {
  return db.rows<ListedPick>(
    `select k.id, k."on", c.name as crop, v.name as variety, b.name as bed, coalesce(r.side, r.name) as side,
      k.quantity, k.unit, k.kg, k.grade, k.picker
     from (select * from picks where "on" between $1::date and $2::date order by "on" desc, ord desc limit $3) k
     ${PICK_PLACES}
     left join crops c on c.id = v.crop left join beds b on b.id = ${PICK_BED}
     order by k."on" desc, k.ord desc`,
    [from, to, most],
  )
}
