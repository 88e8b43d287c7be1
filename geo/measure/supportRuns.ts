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

/** Every support standing on a day, in the order they were made; all, or those within a metre of the beds or fields named. */
export async function supportRuns(
  db: Database,
  on: string,
  near: { beds: readonly string[] } | { fields: readonly string[] } | null = null,
): Promise<SupportRun[]> {
  const [table, ids] = near === null ? ['', null] : 'beds' in near ? ['beds', near.beds] : ['fields', near.fields]
  // Found first: nothing tells the planner how few lie near (migration 0005).
  const found = `select s.* from supports s
    where s.id in (select s.id from ${table} n join supports s on st_dwithin(n.plan, s.plan, 1) where n.id = any($2))`
  return db.rows<SupportRun>(
    `with near as materialized (${table ? found : 'select * from supports'})
    select s.id, s.system, y.name as system_name, p.field, p.bed, st_length(s.plan) as length_m, s.put_up,
      coalesce(s.permanent, false) as permanent, extract(year from age($1::date, s.put_up))::integer + 1 as age_seasons
    from near s join systems y on y.id = s.system join support_places p on p.support = s.id
    where standing(s.put_up, s.taken_down, $1::date)
    order by s.ord`,
    ids ? [on, ids] : [on],
  )
}
