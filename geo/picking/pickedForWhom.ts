import type { Database } from '../store/database.ts'
import type { Days } from './pickPlaces.ts'

/** Mass that one person picked and another received. Null: not told who picked; not told who had it. */
export interface PickedFor {
  readonly picker: string | null
  readonly to: string | null
  readonly use: string | null
  readonly kg: number
}

/**
 * Who picked for whom and for what: each pick's mass parted by its shares, and what its shares leave of it under nobody
 * (`to` null), so that the kg of all lines sum to the kg of all picks. `part` is of the pick, 0–1.
 */
export async function pickedForWhom(db: Database, { from, to }: Days): Promise<PickedFor[]> {
  return db.rows<PickedFor>(
    `with season as (
       select id, picker, kg from picks where "on" between $1::date and $2::date and kg is not null
     ), given as (
       select k.picker, s."to", s.use, k.kg * s.part as kg from season k join shares s on s.pick = k.id
       union all
       select k.picker, null, null, k.kg * (1 - coalesce(s.parts, 0))
       from season k left join (
         select pick, sum(part) as parts from shares where pick in (select id from season) group by pick
       ) s on s.pick = k.id
       where coalesce(s.parts, 0) < 1 - 1e-9
     )
     select picker, "to", use, sum(kg) as kg from given group by 1, 2, 3
     order by picker nulls last, "to" nulls last, use nulls last`,
    [from, to],
  )
}
