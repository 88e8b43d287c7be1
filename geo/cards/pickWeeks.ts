import type { Database } from '../store/database.ts'

/** How much was picked in a week, told by the week's first day. */
export interface PickWeek {
  readonly from: string
  readonly kg: number
  readonly picks: number
}

/** Every week between two days (the second left out) in which something was picked, weeks counted from the first day. */
export async function pickWeeks(db: Database, fromDay: string, untilDay: string): Promise<PickWeek[]> {
  return db.rows<PickWeek>(
    `select ($1::date + 7 * (("on" - $1::date) / 7))::date as "from", coalesce(sum(kg), 0) as kg, count(*)::integer as picks
     from picks where "on" >= $1::date and "on" < $2::date group by 1 order by 1`,
    [fromDay, untilDay],
  )
}
