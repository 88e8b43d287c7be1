import type { RowAt, SitingAsked } from '../../../geo/siting/planFile.ts'
import { WEIGHTS, type Weight } from '../../../geo/siting/weights.ts'
import type { ClimbedFamily } from '../../desk/door.ts'
import { readNumber } from '../ground/formValues.ts'
import { METRES_PER_FOOT, type Units } from '../show/figures.ts'

/** The need as it is typed: nothing typed is lost, whether it can be read or not. */
export interface NeedDraft {
  readonly from: string
  readonly years: string
  readonly families: readonly { readonly name: string; readonly metres: string; readonly returns: string }[]
  readonly system: string
  readonly instead: string
  readonly budget: string
  readonly labour: string
  readonly wind: string
  readonly weights: Readonly<Record<Weight, string>>
  readonly fix: readonly RowAt[]
  readonly forbid: readonly RowAt[]
  readonly prefer: readonly RowAt[]
}

/** Seasons that a first guess looks back on. */
const LOOKED_BACK = 3

/** The least metres that each family climbed in one of the last seasons before a year, of those in which it climbed at all: what a support that stays would have served each time. Whole metres (or feet). */
export function firstGuess(climbed: readonly ClimbedFamily[], from: number, units: Units): NeedDraft['families'] {
  const seasons = [...new Set(climbed.flatMap((one) => one.seasons.map(({ season }) => season)))]
    .filter((season) => season < from)
    .sort((a, b) => b - a)
    .slice(0, LOOKED_BACK)
  const perM = units === 'us' ? METRES_PER_FOOT : 1
  return climbed.flatMap(({ family, seasons: told, returnYears }) => {
    const recent = told.filter(({ season, metres }) => metres > 0 && seasons.includes(season))
    if (recent.length === 0) return []
    const least = Math.min(...recent.map(({ metres }) => metres)) / perM
    return [{ name: family, metres: String(Math.max(1, Math.round(least))), returns: String(returnYears?.[0] ?? 3) }]
  })
}

/** What was typed as a plan file's value; or what is wrong, by the plan file's fields. */
export function planOf(
  draft: NeedDraft,
  units: Units,
): { readonly plan: Record<string, unknown> } | { readonly faults: Readonly<Record<string, string>> } {
  const faults: Record<string, string> = {}
  const number = (field: string, text: string, least: number, most: number, whole = false): number => {
    const value = readNumber(text)
    if (text.trim() === '') faults[field] = 'A number is needed.'
    else if (value === null) faults[field] = `“${text}” is not a number.`
    else if (whole && !Number.isInteger(value)) faults[field] = 'A whole number is needed.'
    else if (value < least || value > most) faults[field] = `From ${least} to ${most.toLocaleString()}.`
    return value ?? 0
  }
  const orNone = (field: string, text: string, most: number) =>
    text.trim() === '' ? null : number(field, text, 0, most)
  const perM = units === 'us' ? METRES_PER_FOOT : 1
  const plan = {
    from: number('from', draft.from, 1900, 2300, true),
    years: number('years', draft.years, 1, 15, true),
    need: Object.fromEntries(
      draft.families.map(({ name, metres }) => [name, number(`need.${name}`, metres, 0, 100_000) * perM]),
    ),
    return_years: Object.fromEntries(
      draft.families.map(({ name, returns }) => [name, number(`return_years.${name}`, returns, 1, 20, true)]),
    ),
    system: draft.system,
    instead: draft.instead,
    budget: orNone('budget', draft.budget, 1e9),
    labour_per_hour: number('labour_per_hour', draft.labour, 0, 10_000),
    weights: Object.fromEntries(
      Object.entries(draft.weights).map(([name, text]) => [name, number(`weights.${name}`, text, 0, 1e6)]),
    ),
    wind_from_deg: orNone('wind_from_deg', draft.wind, 360),
    fix: draft.fix,
    forbid: draft.forbid,
    prefer: draft.prefer,
  }
  if (draft.system === '') faults.system = 'Choose a system: add one on the Supports sheet if there is none.'
  if (draft.instead === '') faults.instead = 'Choose what is put up where nothing permanent stands.'
  return Object.keys(faults).length > 0 ? { faults } : { plan }
}

/** A kept plan file's value as it would be typed; the way back of `planOf`. */
export function draftOf(asked: SitingAsked, units: Units): NeedDraft {
  const perM = units === 'us' ? METRES_PER_FOOT : 1
  const orEmpty = (value: number | null) => (value === null ? '' : String(value))
  return {
    from: String(asked.from),
    years: String(asked.years),
    families: Object.entries(asked.need).map(([name, metres]) => ({
      name,
      metres: String(Number((metres / perM).toFixed(6))),
      returns: String(asked.return_years[name] ?? 3),
    })),
    system: asked.system,
    instead: asked.instead,
    budget: orEmpty(asked.budget),
    labour: String(asked.labour_per_hour),
    wind: orEmpty(asked.wind_from_deg),
    weights: {
      ...usualWeights(),
      ...Object.fromEntries(Object.entries(asked.weights).map(([name, value]) => [name, String(value)])),
    },
    fix: asked.fix,
    forbid: asked.forbid,
    prefer: asked.prefer,
  }
}

export const usualWeights = (): Record<Weight, string> =>
  Object.fromEntries(Object.entries(WEIGHTS).map(([name, { usual }]) => [name, String(usual)])) as Record<
    Weight,
    string
  >

/** What is asked of a row: it must be taken, must not, is liked, or nothing. */
export type RowWish = 'fix' | 'forbid' | 'prefer'

const isAt = (row: RowAt) => (other: RowAt) => other.bed === row.bed && other.side === row.side

export function wishOf(draft: NeedDraft, row: RowAt): RowWish | null {
  return (['fix', 'forbid', 'prefer'] as const).find((wish) => draft[wish].some(isAt(row))) ?? null
}

/** The draft with another wish for a row; one row of a bed can be fixed. */
export function wished(draft: NeedDraft, row: RowAt, wish: RowWish | null): NeedDraft {
  const without = (rows: readonly RowAt[]) => rows.filter((other) => !isAt(row)(other))
  const fix = without(draft.fix).filter(({ bed }) => wish !== 'fix' || bed !== row.bed)
  return {
    ...draft,
    fix: wish === 'fix' ? [...fix, row] : fix,
    forbid: wish === 'forbid' ? [...without(draft.forbid), row] : without(draft.forbid),
    prefer: wish === 'prefer' ? [...without(draft.prefer), row] : without(draft.prefer),
  }
}
