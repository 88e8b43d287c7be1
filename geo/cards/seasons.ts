import type { Database } from '../store/database.ts'

/** The seasons that the farm has records of (plantings, picks, supports), oldest first; a season is named by the year it starts in. */
export async function seasonsWithRecords(db: Database): Promise<number[]> {
  const rows = await db.rows<{ season: number }>(
    `with months as (select coalesce((select season_start_month from farm), 1) - 1 as shift),
    days as (
      select "on" as day from picks union select set_out from plantings union select put_up from supports where put_up is not null
    )
    select distinct extract(year from day - make_interval(months => shift))::integer as season from days, months order by 1`,
  )
  return rows.map((row) => row.season)
}
