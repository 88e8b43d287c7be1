import type { PartUnit } from './partRule.ts'
import type { SupportsReport } from './supportsReport.ts'

/** What `selion supports --json` prints: unrounded SI, money in the farm's currency. */
export interface SupportsJson {
  readonly runs: readonly {
    readonly id: string
    readonly system: string
    readonly field: string | null
    readonly bed: string | null
    readonly length_m: number
    readonly parts: readonly {
      readonly part: string
      readonly count: number | null
      readonly unit: PartUnit
      readonly cost: number | null
    }[]
    readonly cost_now: number
    readonly cost_per_season: number
    readonly minutes_per_season: number
    readonly load: {
      readonly span_m: number
      readonly load_n_per_m: number
      readonly sag_m: number
      readonly tension_n: number
      readonly breaking_n: number
      readonly safety: number
    } | null
    /**
     * Beside the contract: posts that stood already and serve, what the load rests on, how much of it is fruit and how
     * much vines (null for the design load, which is both), and what gives first.
     */
    readonly posts_there: Readonly<Record<string, number>>
    readonly load_from: string
    readonly fruit_n_per_m: number | null
    readonly vines_n_per_m: number | null
    readonly checks: readonly { readonly what: string; readonly part: string; readonly share: number }[]
    readonly remedies: readonly { readonly change: string; readonly share: number }[]
  }[]
  readonly rolls: readonly {
    readonly part: string
    readonly rolls: number
    readonly roll_m: number
    readonly waste_m: number
    readonly cuts: readonly (readonly number[])[]
  }[]
  readonly total: { readonly cost_now: number; readonly cost_per_season: number; readonly minutes_per_season: number }
}

/** The report as the command line tells it; `system` is the system's id. */
export function supportsJson(report: SupportsReport): SupportsJson {
  return {
    runs: report.runs.map(({ run, bill, costPerSeason, posts, load: { topLine, checks }, expected, remedies }) => ({
      id: run.id,
      system: run.system,
      field: run.field,
      bed: run.bed,
      length_m: run.lengthM,
      parts: bill.parts.map(({ part, count, unit, cost }) => ({ part, count, unit, cost })),
      cost_now: bill.costNow,
      cost_per_season: costPerSeason,
      minutes_per_season: bill.minutesPerSeason,
      load: topLine && {
        span_m: topLine.spanM,
        load_n_per_m: topLine.loadNPerM,
        sag_m: topLine.sagM,
        tension_n: topLine.tensionN,
        breaking_n: topLine.breakingN,
        safety: topLine.safety,
      },
      posts_there: posts.there,
      load_from: expected.from,
      fruit_n_per_m: expected.fruitNPerM,
      vines_n_per_m: expected.vinesNPerM,
      checks: checks.map(({ what, part, share }) => ({ what, part, share })),
      remedies,
    })),
    rolls: report.rolls.map(({ part, rollM, cuts, wasteM }) => ({
      part,
      rolls: cuts.length,
      roll_m: rollM,
      waste_m: wasteM,
      cuts,
    })),
    total: {
      cost_now: report.costNow,
      cost_per_season: report.costPerSeason,
      minutes_per_season: report.minutesPerSeason,
    },
  }
}
