import { PICK_BED, PICK_PLACES } from '../picking/pickPlaces.ts'
import type { Database } from '../store/database.ts'
import { sqlSeasonOf } from './seasons.ts'

/** What a bed gave in a season, which is named by the year it starts in. */
export interface SeasonGave {
  readonly season: number
  /** Null where no pick of it has a weight. */
  readonly kg: number | null
  readonly picks: number
}

/** What a bed gave up to a day, the latest season first: picks told of its plantings, of it as a whole, or of a spot in it. */
export function gaveBySeason(db: Database, bed: string, on: string): Promise<SeasonGave[]> {
  return db.rows<SeasonGave>(
    // The picks that may be the bed's are looked for first, by what they were told of; PICK_BED then says of which each is.
    `select ${sqlSeasonOf('k."on"')} as season, sum(k.kg) as kg, count(*)::integer as picks
     from (
       select * from picks where planting = any(array(select plantings_in(array[$1])))
       union all select * from picks where bed = $1
       union all select k.* from picks k join beds b on b.id = $1 where st_covers(b.plan, k.plan)
     ) k ${PICK_PLACES}
     where ${PICK_BED} = $1 and k."on" <= $2::date group by 1 order by 1 desc`,
    [bed, on],
  )
}
