import type { Database } from '../store/database.ts'
import { kgPerRowM } from './cropLoads.ts'
import { type CutRolls, cutRolls } from './cutRolls.ts'
import { expectedLoad } from './expectedLoad.ts'
import { labourCost } from './labourCost.ts'
import { type LoadCase, type LoadCheck, loadCheck } from './load/loadCheck.ts'
import { type Remedy, remedies } from './load/remedies.ts'
import { readRecipes } from './readRecipes.ts'
import { readRuns } from './readRuns.ts'
import type { Recipe } from './recipe.ts'
import { plantsOf, type Run } from './run.ts'
import { type BilledRun, type RunBill, runBill } from './runBill.ts'

/** What the figures of supports hang on, beside the records. */
export interface SupportSettings {
  /** Null: labour is told in minutes and not priced. */
  readonly labourPerHour: number | null
  readonly wind: LoadCase['wind']
  readonly leafCoefficient: number
}

export interface RunReport {
  readonly run: Run
  readonly recipe: Recipe
  readonly billed: BilledRun
  readonly bill: RunBill
  readonly costPerSeason: number
  readonly load: LoadCheck
  readonly loadFrom: 'picks' | 'design load'
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
  const recipes = new Map((await readRecipes(db)).map((recipe) => [recipe.id, recipe]))
  const rates = await kgPerRowM(db)
  const runs = (await readRuns(db, on, season)).map((run): RunReport => {
    const recipe = recipes.get(run.system)
    if (!recipe) throw new Error(`support ${run.id} is of a system that is not there: ${run.system}`)
    const billed = { lengthM: run.lengthM, heightM: run.heightM, permanent: run.permanent, plants: plantsOf(run) }
    const bill = runBill(billed, recipe)
    const { loadNPerM, from } = expectedLoad(run, rates)
    const load = { loadNPerM, wind: settings.wind, leafCoefficient: settings.leafCoefficient }
    return {
      run,
      recipe,
      billed,
      bill,
      costPerSeason: bill.partsPerSeason + labourCost(bill.minutesPerSeason, settings),
      load: loadCheck(billed, recipe, load),
      loadFrom: from,
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
