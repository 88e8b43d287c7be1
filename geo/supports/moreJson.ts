import { costOverYears } from './costOverYears.ts'
import { type HeldPiece, heldByDay } from './heldByDay.ts'
import type { Recipe } from './recipe.ts'
import type { BilledRun } from './runBill.ts'
import { bothOverYears, type Comparison, outcome, sensitivity } from './sensitivity.ts'
import { daysToSupport, supportsDue } from './supportDue.ts'
import type { WornRun } from './supportsWear.ts'
import type { TimedWork } from './timedRecipe.ts'
import { wearBySystem } from './wearBySystem.ts'

/** The season held, by day, field and crop, and support due against support put up, as `selion supports --json` tells it. */
export function seasonJson(pieces: readonly HeldPiece[], season: { from: string; to: string }, on: string) {
  const days = (of: readonly HeldPiece[]) =>
    heldByDay(of).map((day) => ({
      on: day.on,
      climbing_m: day.climbingM,
      held_m: day.heldM,
      unheld_m: Math.max(0, day.climbingM - day.heldM),
    }))
  const by = (key: 'field' | 'crop') =>
    [...new Set(pieces.map((piece) => piece[key]))].map((id) => ({
      [key]: id,
      days: days(pieces.filter((piece) => piece[key] === id)),
    }))
  const assumed = new Map(pieces.map((piece) => [piece.planting, daysToSupport(piece).assumed]))
  return {
    ...season,
    days: days(pieces),
    fields: by('field'),
    crops: by('crop'),
    due: supportsDue(pieces, on).map((one) => ({
      planting: one.planting,
      crop: one.crop,
      field: one.field,
      bed: one.bed,
      length_m: one.lengthM,
      set_out: one.setOut,
      needed_on: one.neededOn,
      needed_assumed: assumed.get(one.planting)!,
      held_from: one.heldFrom,
      late_days: one.lateDays,
    })),
  }
}

/** Systems side by side over years for one run, and what the choice of two of them hangs on. */
export function yearsJson(
  run: Omit<BilledRun, 'permanent'> & { readonly id: string | null },
  recipes: readonly Recipe[],
  of: Omit<Comparison, 'run'>,
) {
  const { seasons, labourPerHour } = of
  const size = { lengthM: run.lengthM, heightM: run.heightM, plants: run.plants }
  const costs = (recipe: Recipe, permanent: boolean) => {
    const { bySeason, total } = costOverYears(size, { recipe, permanent }, seasons, { labourPerHour })
    return { by_season: bySeason, total }
  }
  const comparison = { ...of, run: size }
  const [permanent, instead] = bothOverYears(comparison)
  const { saves, paidBackIn } = outcome(comparison)
  return {
    run: run.id,
    length_m: run.lengthM,
    seasons,
    labour_per_hour: labourPerHour,
    systems: recipes.map((recipe) => ({
      system: recipe.id,
      each_season: costs(recipe, false),
      left_up: costs(recipe, true),
      unknown: costOverYears(size, { recipe, permanent: false }, 1, { labourPerHour }).unknown,
    })),
    compared: {
      permanent: permanent.system,
      instead: instead.system,
      saves,
      paid_back_in: paidBackIn,
      sensitivity: sensitivity(comparison).map(({ assumption, low, high }) => ({
        assumption,
        third_less: { saves: low.saves, paid_back_in: low.paidBackIn },
        third_more: { saves: high.saves, paid_back_in: high.paidBackIn },
      })),
    },
  }
}

/** What broke, how long runs stood and what work on them took, by system, with how sure. */
export function wearJson(worn: readonly WornRun[], recipes: readonly Recipe[], timed: readonly TimedWork[]) {
  return {
    runs: worn.map((run) => ({
      id: run.id,
      system: run.system,
      field: run.field,
      bed: run.bed,
      length_m: run.lengthM,
      put_up: run.putUp,
      taken_down: run.takenDown,
      seasons: run.seasons,
      broken: run.breakages.map(({ observation, on, kind, severity }) => ({ observation, on, kind, severity })),
    })),
    systems: wearBySystem(worn, recipes, timed).map(({ system, runs, rate, tells, minutesPerM }) => ({
      system,
      runs,
      broken_per_m_season: rate?.kgPerRowM ?? null,
      low: tells ? rate!.low : null,
      high: tells ? rate!.high : null,
      told_minutes_per_m: minutesPerM,
    })),
    minutes: timed.map(({ system, phase, times, minutesPerM, low, high }) => ({
      system,
      work: phase,
      times,
      minutes_per_m: minutesPerM,
      low,
      high,
    })),
  }
}
