import type { Database } from '../store/database.ts'
import type { Days } from './pickPlaces.ts'

/** What one person picked, on how many days; `picker` null: not told. */
export interface PersonPicked {
  readonly picker: string | null
  readonly kg: number
  readonly picks: number
  readonly days: number
}

/** Picked mass by who picked it, the most first. */
export async function pickedByPerson(db: Database, { from, to }: Days): Promise<PersonPicked[]> {
  return db.rows<PersonPicked>(
    `select picker, coalesce(sum(kg), 0) as kg, count(*)::integer as picks, count(distinct "on")::integer as days
     from picks where "on" between $1::date and $2::date group by 1 order by kg desc, picker nulls last`,
    [from, to],
  )
}
