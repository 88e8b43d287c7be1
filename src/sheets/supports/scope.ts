import { computed } from '@preact/signals'
import { type ExpectedLoad, expectedLoad, type LoadGround } from '../../../geo/supports/expectedLoad.ts'
import { ASSUMED_WIND } from '../../../geo/supports/load/assumedWind.ts'
import type { LoadCase } from '../../../geo/supports/load/loadCheck.ts'
import { type Materials, materialsOf, type RunOfSystem } from '../../../geo/supports/materialsOf.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import type { BilledRun } from '../../../geo/supports/runBill.ts'
import { type DatedRun, type RunsToBuyFor, runsToBuyFor } from '../../../geo/supports/runsToBuyFor.ts'
import { shoppingList, type ToBuy } from '../../../geo/supports/shoppingList.ts'
import { type BillOfRuns, sumBills } from '../../../geo/supports/sumBills.ts'
import { timedRecipe } from '../../../geo/supports/timedRecipe.ts'
import type { SeenRun } from '../../desk/door.ts'
import { type Assumed, assumed } from '../state/assumed.ts'
import { chosen } from '../state/chosen.ts'
import { seasonStartMonth } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { type Scope, scopeAsked, seen } from '../state/supports.ts'
import { season } from '../state/where.ts'

/** A run with its recipe. */
export interface SeenOfSystem {
  readonly run: SeenRun
  readonly recipe: Recipe
}

/** The farm's systems, with the minutes that were timed where that is asked for. */
export const recipes = computed<readonly Recipe[]>(() => {
  const timed = assumed.value.minutesFrom === 'records' ? (seen.value?.timed ?? []) : []
  return (seen.value?.recipes ?? []).map((recipe) => timedRecipe(recipe, timed))
})

export const allRuns = computed<readonly SeenOfSystem[]>(() => ofSystems(seen.value?.runs ?? []))

/** Runs that are put up after the day shown. */
const allPlanned = computed<readonly SeenOfSystem[]>(() => ofSystems(seen.value?.planned ?? []))

function ofSystems(runs: readonly SeenRun[]): readonly SeenOfSystem[] {
  const byId = new Map(recipes.value.map((recipe) => [recipe.id, recipe]))
  return runs.flatMap((run) => {
    const recipe = byId.get(run.system)
    return recipe ? [{ run, recipe }] : []
  })
}

/** The run whose card is open. */
export const chosenRun = computed<SeenOfSystem | null>(() =>
  chosen.value?.kind === 'supports' ? (allRuns.value.find(({ run }) => run.id === chosen.value?.id) ?? null) : null,
)

/** The field whose card is open, or that the run lies in. */
const chosenField = computed<string | null>(() =>
  chosen.value?.kind === 'fields' ? chosen.value.id : (chosenRun.value?.run.field ?? null),
)

/** Scopes that there is something for now. */
export const scopes = computed<readonly Scope[]>(() => [
  ...(chosenRun.value ? (['run'] as const) : []),
  ...(chosenField.value ? (['field'] as const) : []),
  'farm',
])

/** What was asked for, or the next wider scope that there is. */
export const scope = computed<Scope>(() =>
  scopes.value.includes(scopeAsked.value) ? scopeAsked.value : scopes.value.includes('field') ? 'field' : 'farm',
)

export const scopeName = computed<string>(() => {
  if (scope.value === 'run') return whereOf(chosenRun.value!.run)
  if (scope.value === 'field') return measured.value?.fields.find(({ id }) => id === chosenField.value)?.name ?? ''
  return 'the whole farm'
})

export const scopeRuns = computed<readonly SeenOfSystem[]>(() => {
  if (scope.value === 'run') return chosenRun.value ? [chosenRun.value] : []
  return scope.value === 'field' ? allRuns.value.filter(({ run }) => run.field === chosenField.value) : allRuns.value
})

/** Runs put up later where the bill is made out for; none where it is for one run that stands. */
export const scopePlanned = computed<readonly SeenOfSystem[]>(() => {
  if (scope.value === 'run') return []
  return scope.value === 'field'
    ? allPlanned.value.filter(({ run }) => run.field === chosenField.value)
    : allPlanned.value
})

export const billed = ({ run, recipe }: SeenOfSystem): RunOfSystem => ({ run: billedRun(run), recipe })

export const billedRun = ({ lengthM, heightM, plants, permanent, postsThere }: SeenRun): BilledRun => ({
  lengthM,
  heightM,
  plants,
  permanent,
  postsThere,
})

const dated = (one: SeenOfSystem): DatedRun => ({ ...billed(one), putUp: one.run.putUp })

/** What the shopping list is for: runs put up later, and what those that stand need anew in the season shown. */
export const buyingFor = computed<RunsToBuyFor>(() =>
  runsToBuyFor(scopePlanned.value.map(dated), scopeRuns.value.map(dated), season.value, seasonStartMonth.value),
)

export const materialsToBuy = computed<Materials>(() => materialsOf(buyingFor.value.runs))

export const linesToBuy = computed<readonly ToBuy[]>(() =>
  shoppingList(materialsToBuy.value, seen.value?.inStore ?? []),
)

/** What it takes to build all the runs that stand anew. */
export const bill = computed<BillOfRuns>(() => sumBills(scopeRuns.value.map(billed), assumed.value.labourPerHour))

/** Where a run stands, in words. */
export function whereOf({ bed, field }: { readonly bed: string | null; readonly field: string | null }): string {
  const named =
    measured.value?.beds.find(({ id }) => id === bed)?.name ??
    measured.value?.fields.find(({ id }) => id === field)?.name
  return named ?? 'outside the fields'
}

/** What a run is taken to bear, with what is assumed. */
export function loadOf(
  run: SeenRun,
  of: Assumed,
): LoadCase & Omit<ExpectedLoad, 'from'> & { readonly from: LoadGround | 'typed' } {
  const expected = expectedLoad(run, seen.value?.yields ?? { own: [], usual: [] }, of.vinesPerFruit)
  const typed = { loadNPerM: of.loadNPerM ?? 0, fruitNPerM: null, vinesNPerM: null, from: 'typed' } as const
  return {
    ...(of.loadNPerM === null ? expected : typed),
    wind: { ...ASSUMED_WIND.wind, speedMPerS: of.windMPerS },
    leafCoefficient: of.leafCoefficient,
  }
}
