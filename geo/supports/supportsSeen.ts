import type { LonLat } from '../plane/lonLat.ts'
import { planeAbout } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { type KnownYields, knownYields } from './cropLoads.ts'
import { loosePosts } from './loosePosts.ts'
import { type InStore, partsInStore } from './partsInStore.ts'
import { plannedRuns } from './plannedRuns.ts'
import { pointAlong } from './pointAlong.ts'
import { readRecipes } from './readRecipes.ts'
import { readRuns } from './readRuns.ts'
import type { Recipe } from './recipe.ts'
import { plantsOf, type Run } from './run.ts'
import { type PostsOfRun, sharePosts } from './sharePosts.ts'
import type { TimedWork } from './timedRecipe.ts'
import { timedWork } from './timedWork.ts'

/** Posts that stand together, `atM` along their run. */
export interface StandingPosts {
  readonly part: string
  readonly atM: number
  readonly count: number
  readonly at: LonLat
}

/** A run standing on the day, and the posts set for it where its recipe puts them, less those that stood and serve it. */
export type SeenRun = Omit<Run, 'line'> & {
  readonly plants: number | null
  readonly posts: readonly StandingPosts[]
  readonly postsThere: Readonly<Record<string, number>>
  readonly wouldServe: { readonly samePart: number; readonly anyPost: number }
}

/** All that bills, costs and loads of the runs standing on a day are reckoned from. */
export interface SupportsSeen {
  readonly on: string
  readonly runs: readonly SeenRun[]
  /** Runs put up after the day, each as it is on the day that it is put up. */
  readonly planned: readonly SeenRun[]
  readonly recipes: readonly Recipe[]
  readonly yields: KnownYields
  /** Work that the grower timed, by system. */
  readonly timed: readonly TimedWork[]
  /** Posts that are structures of their own. */
  readonly loose: readonly LonLat[]
  readonly inStore: readonly InStore[]
}

/** The supports of a day as they are reckoned with; `season` holds the day and begins in `startMonth`. */
export async function supportsSeen(
  db: Database,
  on: string,
  season: { from: string; to: string },
  startMonth: number,
): Promise<SupportsSeen> {
  const recipes = await readRecipes(db)
  const bySystem = new Map(recipes.map((recipe) => [recipe.id, recipe]))
  const origin = await readOrigin(db)
  const plane = origin && planeAbout(origin)
  const runs = plane ? await readRuns(db, on, season) : []
  const loose = plane ? await loosePosts(db) : []
  const shared = sharePosts(runs, bySystem, loose)
  const planned = plane ? await plannedRuns(db, on, startMonth, bySystem, loose) : []
  const seenRun = ({ line, ...run }: Run, { own, there, wouldServe }: PostsOfRun): SeenRun => ({
    ...run,
    plants: plantsOf(run),
    posts: own.map((post) => ({ ...post, at: plane!.toLonLat(pointAlong(line, post.atM)) })),
    postsThere: there,
    wouldServe,
  })
  const inStore = await partsInStore(db)
  return {
    on,
    runs: runs.map((run) => seenRun(run, shared.get(run.id)!)),
    planned: planned.map(({ run, posts }) => seenRun(run, posts)),
    recipes,
    yields: plane ? await knownYields(db, on) : { own: [], usual: [] },
    timed: plane ? await timedWork(db, on, startMonth) : [],
    loose: loose.map(({ at }) => plane!.toLonLat(at)),
    inStore,
  }
}
