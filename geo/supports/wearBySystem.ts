import { compareGroups, type GroupYield } from '../yield/compareGroups.ts'
import type { Recipe } from './recipe.ts'
import type { HeldYield, WornRun } from './supportsWear.ts'
import type { TimedWork } from './timedRecipe.ts'
import { ENOUGH, SEED } from './timedWork.ts'

/** How runs of a system wore. `rate.kgPerRowM` is breakages for each metre and season. */
export interface SystemWear {
  readonly system: string
  readonly name: string
  readonly runs: number
  readonly rate: GroupYield | null
  /** Enough runs, with something seen broken, for its range to mean something. */
  readonly tells: boolean
  /** Minutes for each metre and one-season run, as its recipe tells. */
  readonly minutesPerM: number
  readonly timed: readonly TimedWork[]
}

/** What a crop gave along a system. */
export interface CropBySystem extends GroupYield {
  readonly crop: string
  readonly cropName: string
  readonly system: string
  readonly systemName: string
  /** What can be said of the crop's systems against each other. */
  readonly verdict: string
}

/** Breakages over metres and seasons by system, with a bootstrap over its runs, its recipe’s minutes and those timed. */
export function wearBySystem(
  runs: readonly WornRun[],
  recipes: readonly Recipe[],
  timed: readonly TimedWork[],
): SystemWear[] {
  const dated = runs.filter(({ seasons, lengthM }) => seasons !== null && lengthM > 0)
  const rates = compareGroups(
    dated.map((run) => ({ group: run.system, kg: run.breakages.length, rowM: run.lengthM * run.seasons! })),
    SEED,
  )
  return recipes.flatMap((recipe) => {
    const own = runs.filter(({ system }) => system === recipe.id)
    if (own.length === 0) return []
    const rate = rates.find(({ group }) => group === recipe.id) ?? null
    return {
      system: recipe.id,
      name: recipe.name,
      runs: own.length,
      rate,
      tells: rate !== null && rate.plantings >= ENOUGH && rate.kgPerRowM > 0,
      minutesPerM: recipe.work.reduce((sum, { minutesPerM }) => sum + (minutesPerM ?? 0), 0),
      timed: timed.filter(({ system }) => system === recipe.id),
    }
  })
}

/** kg a row metre by crop and system, and whether systems differ in a crop. Crops are never compared with each other. */
export function yieldBySystem(yields: readonly HeldYield[], nameOf: (system: string) => string): CropBySystem[] {
  const crops = new Map<string, HeldYield[]>()
  for (const one of yields) {
    const list = crops.get(one.crop)
    if (list) list.push(one)
    else crops.set(one.crop, [one])
  }
  return [...crops.values()].flatMap((list) => {
    const { crop, cropName } = list[0]!
    const groups = compareGroups(
      list.map(({ system, kg, rowM }) => ({ group: system, kg, rowM })),
      SEED,
    ).sort((a, b) => b.kgPerRowM - a.kgPerRowM)
    const said = verdict(groups, nameOf)
    return groups.map((group) => ({
      ...group,
      ...(group.plantings < ENOUGH && { low: null, high: null }),
      crop,
      cropName,
      system: group.group,
      systemName: nameOf(group.group),
      verdict: said,
    }))
  })
}

/** Says that the best system gave more than another only where both have plantings enough and their ranges don't meet. */
export function verdict(groups: readonly GroupYield[], nameOf: (system: string) => string): string {
  const sure = groups.filter(({ plantings, low, high }) => plantings >= ENOUGH && low !== null && high !== null)
  if (sure.length < 2) return 'too little to tell'
  const [best, ...rest] = sure
  const below = rest.filter(({ high }) => high! < best!.low!)
  if (below.length === 0) return 'no difference that is sure'
  return `${nameOf(best!.group)} gave more than ${below.map(({ group }) => nameOf(group)).join(', ')}`
}
