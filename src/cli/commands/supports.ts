import type { Database } from '../../../geo/store/database.ts'
import { heldThroughSeason } from '../../../geo/supports/heldThroughSeason.ts'
import { ASSUMED_WIND } from '../../../geo/supports/load/assumedWind.ts'
import { loosePosts } from '../../../geo/supports/loosePosts.ts'
import { materialsOf } from '../../../geo/supports/materialsOf.ts'
import { seasonJson, wearJson, yearsJson } from '../../../geo/supports/moreJson.ts'
import { partsInStore } from '../../../geo/supports/partsInStore.ts'
import { plannedRuns } from '../../../geo/supports/plannedRuns.ts'
import { readRecipes } from '../../../geo/supports/readRecipes.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { plantsOf } from '../../../geo/supports/run.ts'
import { type DatedRun, runsToBuyFor } from '../../../geo/supports/runsToBuyFor.ts'
import { shoppingList, type ToBuy } from '../../../geo/supports/shoppingList.ts'
import { supportsJson } from '../../../geo/supports/supportsJson.ts'
import { type SupportsReport, supportsReport } from '../../../geo/supports/supportsReport.ts'
import { supportsWear } from '../../../geo/supports/supportsWear.ts'
import { systemsCompared } from '../../../geo/supports/systemsCompared.ts'
import { timedRecipe } from '../../../geo/supports/timedRecipe.ts'
import { timedWork } from '../../../geo/supports/timedWork.ts'
import { usualPair } from '../../../geo/supports/usualPair.ts'
import type { ReckonedComparisons } from '../../../geo/yield/compare/reckonComparisons.ts'
import { seasonOf, seasonSpan } from '../../../geo/yield/season.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { seasonTable, shoppingTable, wearTable, yearsTable } from '../supports/tables.ts'
import { table } from '../table.ts'
import { WrongUse } from '../wrongUse.ts'
import { comparisonsTable } from '../yield/comparisonsTable.ts'
import { snakeKeys } from '../yield/snakeKeys.ts'

export const supports: Command = {
  usage:
    'supports ARCHIVE [--on YYYY-MM-DD] [--labour PER_HOUR] [--minutes systems|records] [--wind M_PER_S] [--vines KG_PER_KG] [--years N] [--run ID] [--permanent SYSTEM] [--instead SYSTEM] [--json]',
  does: 'what the supports standing on a day take, cost a season and bear, how rolls are cut over them, what is to be bought; how the season is held, what systems cost over years (for one run: the longest, or --run), what broke and what held up better; --vines is the weight of vines for each kg of fruit, else by family; --minutes records takes the times that were noted where there are any',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, OPTIONS)
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const on = dayOf(values.on, now)
    const minutes = values.minutes ?? 'systems'
    if (minutes !== 'systems' && minutes !== 'records')
      throw new WrongUse(`--minutes ${minutes}: one of systems, records`)
    const years = positiveOf('years', values.years, 10)
    if (!Number.isInteger(years) || years > 50) throw new WrongUse(`--years ${years}: a whole number up to 50`)
    const { wind, leafCoefficient } = ASSUMED_WIND
    const labourPerHour = values.labour === undefined ? null : positiveOf('labour', values.labour, 0)
    const told = await withArchive(archive, async (db, reading) => {
      const month = reading.content!.farm.season_start_month
      const season = seasonSpan(seasonOf(on, month), month)
      const timed = await timedWork(db, on, month)
      const used = minutes === 'records' ? timed : []
      const report = await supportsReport(db, on, season, {
        labourPerHour,
        wind: { ...wind, speedMPerS: positiveOf('wind', values.wind, wind.speedMPerS) },
        leafCoefficient,
        vinesPerFruit: values.vines === undefined ? null : positiveOf('vines', values.vines, 0),
        timed: used,
      })
      const recipes = (await readRecipes(db)).map((recipe) => timedRecipe(recipe, used))
      const standing = report.runs.map(({ run, billed, recipe }) => ({ run: billed, recipe, putUp: run.putUp }))
      const planned = await plannedToBuy(db, on, month, recipes)
      const inStore = await partsInStore(db)
      return {
        report,
        shopping: shoppingList(materialsOf(runsToBuyFor(planned, standing, seasonOf(on, month), month).runs), inStore),
        anew: shoppingList(materialsOf(standing), inStore),
        season: seasonJson(await heldThroughSeason(db, season), season, on),
        years: recipes.length === 0 ? null : yearsOf(report, recipes, years, labourPerHour ?? 0, values),
        wear: wearJson(await supportsWear(db, on, month), recipes, timed),
        compared: await systemsCompared(db, seasonOf(on, month)),
      }
    })
    out(
      values.json
        ? jsonLine({
            ...supportsJson(told.report),
            shopping: snakeKeys(told.shopping),
            anew: snakeKeys(told.anew),
            season: told.season,
            years: told.years,
            wear: { ...told.wear, ...(snakeKeys(told.compared) as Record<string, unknown>) },
          })
        : tables(told, on, labourPerHour !== null),
    )
    return 0
  },
}

const OPTIONS = {
  on: 'value',
  labour: 'value',
  minutes: 'value',
  wind: 'value',
  vines: 'value',
  years: 'value',
  run: 'value',
  permanent: 'value',
  instead: 'value',
  json: 'switch',
} as const

type Values = Readonly<Partial<Record<keyof typeof OPTIONS, string | boolean | undefined>>>

/** Runs put up after a day, as they are billed. */
async function plannedToBuy(db: Database, on: string, month: number, recipes: readonly Recipe[]): Promise<DatedRun[]> {
  const bySystem = new Map(recipes.map((recipe) => [recipe.id, recipe]))
  const planned = await plannedRuns(db, on, month, bySystem, await loosePosts(db))
  return planned.map(({ run, posts }) => ({
    run: { ...run, plants: plantsOf(run), postsThere: posts.there },
    recipe: bySystem.get(run.system)!,
    putUp: run.putUp,
  }))
}

/** Systems over years for the run asked for, else the longest, else one of 20 m; the pair asked for, else the usual one. */
function yearsOf(
  { runs }: SupportsReport,
  recipes: readonly Recipe[],
  seasons: number,
  labourPerHour: number,
  values: Values,
) {
  const looked =
    values.run === undefined
      ? [...runs].sort((a, b) => b.run.lengthM - a.run.lengthM)[0]
      : runs.find(({ run }) => run.id === values.run)
  if (values.run !== undefined && !looked) throw new WrongUse(`--run ${values.run}: no such run stands on the day`)
  const named = (option: 'permanent' | 'instead', usual: Recipe) => {
    if (values[option] === undefined) return usual
    const found = recipes.find(({ id }) => id === values[option])
    if (!found) throw new WrongUse(`--${option} ${values[option]}: no such system`)
    return found
  }
  const pair = usualPair(
    recipes,
    runs.map(({ run }) => run),
    looked?.run.system ?? null,
  )
  return yearsJson(
    looked ? { ...looked.billed, id: looked.run.id } : { id: null, lengthM: 20, heightM: null, plants: null },
    recipes,
    {
      permanent: named('permanent', pair.permanent),
      oneSeason: named('instead', pair.oneSeason),
      seasons,
      labourPerHour,
    },
  )
}

interface Told {
  readonly report: SupportsReport
  /** For what is put up later and what standing runs need anew; and what it takes to build all that stands anew. */
  readonly shopping: readonly ToBuy[]
  readonly anew: readonly ToBuy[]
  readonly season: ReturnType<typeof seasonJson>
  readonly years: ReturnType<typeof yearsJson> | null
  readonly wear: ReturnType<typeof wearJson>
  readonly compared: ReckonedComparisons
}

const CAUTION =
  'Loads are indications, never a design: what people or a building depend on is for licensed practice and the local code. Before driving posts ask the local buried-services line, however shallow. Tensioned wire recoils: eye protection, gloves, never beyond the maker’s tension.'

function tables({ report, shopping, anew, season, years, wear, compared }: Told, on: string, priced: boolean): string {
  const runs = report.runs.map(({ run, recipe, bill, costPerSeason, load: { topLine, checks } }) => [
    run.id,
    recipe.name,
    run.bed ?? run.field,
    run.lengthM,
    bill.costNow,
    costPerSeason,
    bill.minutesPerSeason,
    topLine?.sagM,
    topLine?.safety,
    checks[0] && `${checks[0].what} (${Math.round(checks[0].share * 100)} %)`,
  ])
  const rolls = report.rolls.map(({ part, rollM, cuts, wasteM }) => [part, cuts.length, rollM, wasteM])
  const unknown = [...new Set(report.runs.flatMap(({ bill }) => bill.unknown))]
  return `${[
    `On ${on}${priced ? '' : '; labour is not priced'}.`,
    table(
      ['run', 'system', 'bed', 'm', 'cost now', 'a season', 'minutes a season', 'sag m', 'safety', 'gives first'],
      runs,
    ),
    shoppingTable(
      `To buy, for runs put up after ${on} and for what those that stand need anew in this season`,
      shopping,
    ),
    shoppingTable('To build all that stands anew', anew),
    ...(rolls.length > 0 ? [table(['in rolls', 'rolls', 'of m', 'left over m'], rolls)] : []),
    ...(unknown.length > 0 ? [`Not counted or without a price: ${unknown.join(', ')}.`] : []),
    seasonTable(season),
    ...(years ? [yearsTable(years)] : []),
    wearTable(wear),
    `What crops gave by system, ${compared.seasons.join(', ')}\n${comparisonsTable(compared)}`,
    CAUTION,
  ].join('\n\n')}\n`
}
