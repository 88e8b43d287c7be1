import type { Database } from '../store/database.ts'
import { type ReckonedComparisons, reckonComparisons } from '../yield/compare/reckonComparisons.ts'

/**
 * What crops gave under one system against another, in all seasons that something was picked in up to one. They are the
 * comparisons that the Yield sheet tells of the same seasons, taken out of all of them: verdicts and the false discovery
 * rate are theirs.
 */
export async function systemsCompared(db: Database, season: number): Promise<ReckonedComparisons> {
  const picked = await db.rows<{ season: number }>(
    `select distinct extract(year from p."on" - make_interval(months => f.season_start_month - 1))::integer as season
     from picks p cross join farm f order by 1`,
  )
  const seasons = picked.map((one) => one.season).filter((one) => one <= season)
  const { comparisons, ...told } = await reckonComparisons(db, { season, seasons, of: null })
  return { ...told, comparisons: comparisons.filter(({ by }) => by === 'system') }
}
