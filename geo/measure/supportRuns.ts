import type { Database } from '../store/database.ts'

/** A support standing on a day, where it stands and for how many seasons it has stood (1 in its first). */
export interface SupportRun {
  readonly id: string
  readonly system: string
  readonly system_name: string
  readonly field: string | null
  readonly bed: string | null
  readonly length_m: number
  readonly put_up: string | null
  readonly permanent: boolean
  readonly age_seasons: number | null
}

/** Every support standing on a day, by field, bed and age. */
export async function supportRuns(db: Database, on: string): Promise<SupportRun[]> {
  return db.rows<SupportRun>(
    `select s.id, s.system, y.name as system_name, p.field, p.bed, st_length(s.plan) as length_m, s.put_up,
      coalesce(s.permanent, false) as permanent, extract(year from age($1::date, s.put_up))::integer + 1 as age_seasons
    from supports s join systems y on y.id = s.system join support_places p on p.support = s.id
    left join fields f on f.id = p.field left join beds b on b.id = p.bed
    where standing(s.put_up, s.taken_down, $1::date)
    order by f.ord, b.ord, s.put_up, s.ord`,
    [on],
  )
}
