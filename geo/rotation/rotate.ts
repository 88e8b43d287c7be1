import type { Highs } from 'highs'
import { costIn } from '../siting/costIn.ts'
import type { Plan } from '../siting/problem.ts'
import { SHORT_M, type SolveOptions, solveSiting } from '../siting/solver/solve.ts'
import { letterOf } from './letterOf.ts'
import type { RotationReading } from './rotationReading.ts'

/** Which group stands where in each season ahead. Metres are metres of bed. */
export interface RotationAnswer {
  /** The season that was carried on, and those ahead. */
  readonly season: number
  readonly seasons: readonly number[]
  /** `short`: not all of what was grown finds a bed every season by the returns asked for. */
  readonly status: 'optimal' | 'feasible' | 'short'
  /** How far from the best it may be, as a part of what the weights lay on it. */
  readonly gap: number
  readonly groups: readonly {
    /** Short for its name. */
    readonly letter: string
    readonly name: string
    readonly families: readonly string[]
    readonly crops: readonly string[]
    readonly climbs: boolean
    readonly need_m: number
    /** Beds that hold it in the season carried on. */
    readonly from_beds: readonly string[]
  }[]
  /** Every bed, with its group's name by season; a season that is not told rests. `left`: why it is left out. */
  readonly beds: readonly {
    readonly bed: string
    readonly name: string
    readonly field: string
    readonly length_m: number
    readonly years: Readonly<Record<string, string>>
    readonly left: string | null
  }[]
  readonly short: readonly { readonly year: number; readonly group: string; readonly metres: number }[]
  /** Families that fill more of the beds than their return leaves room for: both as parts of the metres that are open. */
  readonly crowded: readonly { readonly family: string; readonly fills: number; readonly room: number }[]
  /** After how many years each family returns, and where that comes from. */
  readonly returns: readonly { readonly family: string; readonly years: number; readonly source: string }[]
}

/** A rotation proved within this of the best is called optimal. */
const OPTIMAL = 1e-6

/** Chooses what follows what in every bed; where the search ends before there is anything, every bed rests and all is short. */
export function rotate(
  highs: Highs,
  reading: RotationReading,
  options: Pick<SolveOptions, 'gap' | 'seconds' | 'clock' | 'tell'>,
): RotationAnswer {
  const { problem } = reading
  const heaviest = problem.beds.reduce(
    (most, { burden, lengthM }) =>
      burden.flat().reduce((b, one) => (one < Number.POSITIVE_INFINITY ? Math.max(b, one / lengthM) : b), most),
    0,
  )
  // A bed is always better taken than left, and no more than that: what is weighed still tells between beds.
  const solved = solveSiting(highs, problem, { ...options, shortPerM: 2 * heaviest })
  return rotationAnswer(reading, solved?.plan ?? [], solved?.gap ?? 1)
}

/** A choice in the farm's words, whether it was ended before its time or not. */
export function rotationAnswer(reading: RotationReading, plan: Plan, gap: number): RotationAnswer {
  const { asked, problem, groups, beds, returns } = reading
  const yearOf = (t: number) => asked.season + 1 + t
  const climbs = new Map(plan.map((one) => [one.bed, one.climbs]))
  const short = costIn(problem, plan).shortM.flatMap((byYear, group) =>
    byYear.flatMap((metres, t) => (metres > SHORT_M ? [{ year: yearOf(t), group: groups[group]!.name, metres }] : [])),
  )
  return {
    season: asked.season,
    seasons: Array.from({ length: asked.years }, (_, t) => yearOf(t)),
    status: short.length > 0 ? 'short' : gap <= OPTIMAL ? 'optimal' : 'feasible',
    gap,
    groups: groups.map(({ name, families, crops, climbs: climbing, needM, beds: from }, n) => ({
      letter: letterOf(n),
      name,
      families,
      crops,
      climbs: climbing,
      need_m: needM,
      from_beds: from,
    })),
    beds: beds.map(({ id, name, field, lengthM, left }, n) => ({
      bed: id,
      name,
      field,
      length_m: lengthM,
      years: Object.fromEntries(
        (climbs.get(n) ?? []).flatMap((group, t) => (group === null ? [] : [[String(yearOf(t)), groups[group]!.name]])),
      ),
      left: left && (left.until === null ? left.why : `${left.why}; open from ${left.until} on`),
    })),
    short: short.sort((one, other) => one.year - other.year),
    crowded: crowdedIn(reading),
    returns,
  }
}

/** A family that comes back after n years can fill an nth of the beds for good. */
function crowdedIn({ beds, groups, returns }: RotationReading): RotationAnswer['crowded'] {
  const open = beds.reduce((sum, { left, lengthM }) => (left?.until === null ? sum : sum + lengthM), 0)
  return returns.flatMap(({ family, years }) => {
    const metres = groups.reduce((sum, group) => (group.families.includes(family) ? sum + group.needM : sum), 0)
    return metres * years > open ? [{ family, fills: metres / open, room: 1 / years }] : []
  })
}
