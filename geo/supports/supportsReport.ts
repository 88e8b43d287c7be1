import type { Database } from '../store/database.ts'
import { knownYields } from './cropLoads.ts'
import { type CutRolls, cutRolls } from './cutRolls.ts'
import { type ExpectedLoad, expectedLoad } from './expectedLoad.ts'
import { labourCost } from './labourCost.ts'
import { type LoadCase, type LoadCheck, loadCheck } from './load/loadCheck.ts'
import { type Remedy, remedies } from './load/remedies.ts'
import { loosePosts } from './loosePosts.ts'
import { readRecipes } from './readRecipes.ts'
import { readRuns } from './readRuns.ts'
import type { Recipe } from './recipe.ts'
import { plantsOf, type Run } from './run.ts'
import { type BilledRun, type RunBill, runBill } from './runBill.ts'
import { type PostsOfRun, sharePosts } from './sharePosts.ts'
import { type TimedWork, timedRecipe } from './timedRecipe.ts'

/** What the figures of supports hang on, beside the records. */
export interface SupportSettings {
  /** Null: labour is told in minutes and not priced. */
  readonly labourPerHour: number | null
  readonly wind: LoadCase['wind']
  readonly leafCoefficient: number
  /** kg of vines for each kg of fruit; null takes what is usual of each family. */
  readonly vinesPerFruit: number | null
  /** Times of the grower's own records that stand in place of those that the systems tell. */
  readonly timed: readonly TimedWork[]
}

export interface RunReport {
  readonly run: Run
  readonly recipe: Recipe
  readonly billed: BilledRun
  readonly bill: RunBill
  readonly posts: PostsOfRun
  readonly costPerSeason: number
  readonly load: LoadCheck
  readonly expected: ExpectedLoad
  readonly remedies: readonly Remedy[]
}

export interface SupportsReport {
  readonly runs: readonly RunReport[]
  readonly rolls: readonly CutRolls[]
  readonly costNow: number
  readonly costPerSeason: number
  readonly minutesPerSeason: number
}

/** Every support standing on a day: what it takes, costs a season and bears; `season` holds the day. */
export async function supportsReport(
  db: Database,
  on: string,
  season: { from: string; to: string },
  settings: SupportSettings,
): Promise<SupportsReport> {
  const recipes = new Map((await readRecipes(db)).map((recipe) => [recipe.id, timedRecipe(recipe, settings.timed)]))
  const yields = await knownYields(db, on)
  const standing = await readRuns(db, on, season)
  const shared = sharePosts(standing, recipes, await loosePosts(db))
  const runs = standing.map((run): RunReport => {
    const recipe = recipes.get(run.system)!
    const posts = shared.get(run.id)!
    const billed: BilledRun = {
      lengthM: run.lengthM,
      heightM: run.heightM,
      permanent: run.permanent,
      plants: plantsOf(run),
      postsThere: posts.there,
    }
    const bill = runBill(billed, recipe)
    const expected = expectedLoad(run, yields, settings.vinesPerFruit)
    const load = { loadNPerM: expected.loadNPerM, wind: settings.wind, leafCoefficient: settings.leafCoefficient }
    return {
      run,
      recipe,
      billed,
      bill,
      posts,
      costPerSeason: bill.partsPerSeason + labourCost(bill.minutesPerSeason, settings),
      load: loadCheck(billed, recipe, load),
      expected,
      remedies: remedies(billed, recipe, load),
    }
  })
  return {
    runs,
    rolls: cutRolls(runs.map(({ billed, recipe }) => ({ run: billed, recipe }))),
    costNow: sum(runs.map(({ bill }) => bill.costNow)),
    costPerSeason: sum(runs.map((run) => run.costPerSeason)),
    minutesPerSeason: sum(runs.map(({ bill }) => bill.minutesPerSeason)),
  }
}

const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0)
