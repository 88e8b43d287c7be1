import type { Database } from '../store/database.ts'
import { seasonOf, seasonSpan } from '../yield/season.ts'
import type { PostsInGround } from './postsToReuse.ts'
import { readRuns } from './readRuns.ts'
import type { Recipe } from './recipe.ts'
import type { Run } from './run.ts'
import { type PostsOfRun, sharePosts } from './sharePosts.ts'

/**
 * Runs that are put up after a day, the first first, each as it is on the day that it is put up: with the plantings of
 * that season, and using posts of what stands then.
 */
export async function plannedRuns(
  db: Database,
  after: string,
  startMonth: number,
  recipes: ReadonlyMap<string, Recipe>,
  loose: readonly PostsInGround[],
): Promise<{ readonly run: Run; readonly posts: PostsOfRun }[]> {
  const days = await db.rows<{ putUp: string }>(
    'select distinct put_up as "putUp" from supports where put_up > $1::date order by 1',
    [after],
  )
  const planned: { run: Run; posts: PostsOfRun }[] = []
  for (const { putUp } of days) {
    const runs = await readRuns(db, putUp, seasonSpan(seasonOf(putUp, startMonth), startMonth))
    const shared = sharePosts(runs, recipes, loose)
    for (const run of runs) if (run.putUp === putUp) planned.push({ run, posts: shared.get(run.id)! })
  }
  return planned
}
