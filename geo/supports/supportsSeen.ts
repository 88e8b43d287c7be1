import type { LonLat } from '../plane/lonLat.ts'
import { planeAbout } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { kgPerRowM } from './cropLoads.ts'
import { pointAlong } from './pointAlong.ts'
import { readRecipes } from './readRecipes.ts'
import { readRuns } from './readRuns.ts'
import type { Recipe } from './recipe.ts'
import { plantsOf, type Run } from './run.ts'
import { postsOf } from './runBill.ts'

/** Posts that stand together, `atM` along their run. */
export interface StandingPosts {
  readonly part: string
  readonly atM: number
  readonly count: number
  readonly at: LonLat
}

/** A run standing on the day, and its posts where its recipe puts them. */
export type SeenRun = Omit<Run, 'line'> & { readonly plants: number | null; readonly posts: readonly StandingPosts[] }

/** All that bills, costs and loads of the runs standing on a day are reckoned from. */
export interface SupportsSeen {
  readonly on: string
  readonly runs: readonly SeenRun[]
  readonly recipes: readonly Recipe[]
  /** kg that a metre of each crop's row gave in a season on this farm. */
  readonly kgPerRowM: readonly (readonly [crop: string, kg: number])[]
  readonly inStore: readonly InStore[]
}

export interface InStore {
  readonly id: string
  readonly part: string
  readonly count: number | null
  readonly metres: number | null
  readonly note: string | null
}

/** The supports of a day as they are reckoned with; `season` holds the day. */
export async function supportsSeen(
  db: Database,
  on: string,
  season: { from: string; to: string },
): Promise<SupportsSeen> {
  const recipes = await readRecipes(db)
  const bySystem = new Map(recipes.map((recipe) => [recipe.id, recipe]))
  const origin = await readOrigin(db)
  const plane = origin && planeAbout(origin)
  const runs = plane ? await readRuns(db, on, season) : []
  const inStore = await db.rows<InStore>('select id, part, count, metres, note from stores order by ord')
  return {
    on,
    runs: runs.map(({ line, ...run }) => {
      const recipe = bySystem.get(run.system)
      if (!recipe) throw new Error(`support ${run.id} is of a system that is not there: ${run.system}`)
      const plants = plantsOf(run)
      const posts = postsOf({ ...run, plants }, recipe)
      return {
        ...run,
        plants,
        posts: posts.map((post) => ({ ...post, at: plane!.toLonLat(pointAlong(line, post.atM)) })),
      }
    }),
    recipes,
    kgPerRowM: [...(plane ? await kgPerRowM(db) : [])],
    inStore,
  }
}
