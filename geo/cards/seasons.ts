import type { Database } from '../store/database.ts'

/** SQL of the season that a day (SQL) lies in, by the farm's season start: the day less so many months lies in its year. */
export const sqlSeasonOf = (day: string): string =>
  `extract(year from ${day} - make_interval(months => coalesce((select season_start_month from farm), 1) - 1))::integer`

/** The seasons that the farm has records of (plantings, picks, supports), oldest first; a season is named by the year it starts in. */
export async function seasonsWithRecords(db: Database): Promise<number[]> {
  const rows = await db.rows<{ season: number }>(
    `with days as (
      select "on" as day from picks union select set_out from plantings union select put_up from supports where put_up is not null
    )
    select distinct ${sqlSeasonOf('day')} as season from days order by 1`,
  )
  return rows.map((row) => row.season)
}
