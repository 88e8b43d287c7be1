import type { Database } from '../store/database.ts'
import { type Days, PICK_PLACES } from './pickPlaces.ts'

/** What a crop gave in a week. Weeks are counted from the first day looked at; `crop` null: told of a bed or spot only. */
export interface CropWeek {
  readonly crop: string | null
  readonly name: string | null
  readonly week: string
  readonly kg: number
  readonly picks: number
}

/** Picked mass by crop and week, in the order of crops then weeks. Picks without a weight count with 0 kg. */
export async function pickedByCrop(db: Database, { from, to }: Days): Promise<CropWeek[]> {
  return db.rows<CropWeek>(
    `select c.id as crop, c.name, ($1::date + 7 * ((k."on" - $1::date) / 7))::date as week,
      coalesce(sum(k.kg), 0) as kg, count(*)::integer as picks
     from picks k ${PICK_PLACES}
     left join crops c on c.id = v.crop
     where k."on" between $1::date and $2::date
     group by c.id, c.name, c.ord, 3 order by c.ord nulls last, 3`,
    [from, to],
  )
}
