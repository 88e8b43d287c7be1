import type { CatalogueCrop } from '../../../geo/catalogue/catalogueCrop.ts'
import type { Lane } from '../../../geo/growing/bedHistory.ts'
import { plantsAt, spacingOf } from '../../../geo/growing/spacing.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import { readNumber } from '../ground/formValues.ts'
import { isCalendarDay } from '../show/days.ts'
import { METRES_PER_FOOT, type Units } from '../show/figures.ts'

/** A planting while it is being set out or moved: what is typed, as text, in the person's units (row in m or ft, spacing in cm or inches). */
export interface Draft {
  readonly id: string
  /** The planting as it is kept, where it is there already. */
  readonly kept: Planting | null
  /** A variety's id; empty while none is chosen, or while a new one is told of in `fresh`. */
  readonly variety: string
  readonly fresh: Fresh | null
  /** Null: the whole width of the bed. */
  readonly row: string | null
  readonly from: string
  readonly to: string
  readonly spacing: string
  readonly plants: string
  /** Which of spacing and plants follows from the other when the stretch changes. */
  readonly follows: 'plants' | 'spacing'
  readonly setOut: string
  readonly cleared: string
}

/** A variety that the farm does not have yet, of one of its crops or of one of the catalogue's, which comes with it. */
export interface Fresh {
  readonly id: string
  readonly crop:
    | { readonly of: 'farm'; readonly id: string }
    | { readonly of: 'catalogue'; readonly entry: CatalogueCrop }
    | null
  readonly name: string
}

export type DraftFaults = Readonly<
  Partial<Record<'variety' | 'row' | 'from' | 'to' | 'spacing' | 'plants' | 'setOut' | 'cleared', string>>
>

const METRES_PER_INCH = 0.0254
const rowM = (units: Units) => (units === 'us' ? METRES_PER_FOOT : 1)
const spacingM = (units: Units) => (units === 'us' ? METRES_PER_INCH : 0.01)
export const spacingUnit = (units: Units) => (units === 'us' ? 'in' : 'cm')

const asText = (value: number, decimals: number) => String(Number(value.toFixed(decimals)))
/** Metres along a row as they are typed. */
export const rowText = (m: number, units: Units) => asText(m / rowM(units), 2)
export const spacingText = (m: number, units: Units) => asText(m / spacingM(units), 1)

/** What is typed of a stretch, in metres; null where it is no number. An end left empty is the row's own. */
export function spanOf({ from, to }: Draft, lane: Lane | undefined, units: Units): readonly [number, number] | null {
  const [a, b] = [readNumber(from.trim() === '' ? '0' : from), to.trim() === '' ? null : readNumber(to)]
  if (a === null || (b === null && to.trim() !== '')) return null
  return [a * rowM(units), b === null ? (lane?.lengthM ?? 0) : b * rowM(units)]
}

/** The draft with spacing and plants in step: the one that follows is reckoned from the other and the stretch. */
export function inStep(draft: Draft, lane: Lane | undefined, units: Units): Draft {
  const span = spanOf(draft, lane, units)
  if (!span || span[1] <= span[0] || draft.row === null) return draft
  const lengthM = span[1] - span[0]
  if (draft.follows === 'plants') {
    const spacing = readNumber(draft.spacing)
    return spacing && spacing > 0 ? { ...draft, plants: String(plantsAt(lengthM, spacing * spacingM(units))) } : draft
  }
  const plants = readNumber(draft.plants)
  const between = plants === null ? null : spacingOf(lengthM, plants)
  return between === null ? draft : { ...draft, spacing: spacingText(between, units) }
}

/** A draft as the planting it means, or what is wrong with it by field. `lane` is the row it is put in. */
export function readDraft(
  draft: Draft,
  bed: string,
  lane: Lane | undefined,
  units: Units,
): { readonly planting: Planting | null; readonly faults: DraftFaults } {
  const faults: { -readonly [K in keyof DraftFaults]?: string } = {}
  const variety = draft.fresh ? draft.fresh.id : draft.variety
  if (draft.fresh) {
    if (!draft.fresh.crop) faults.variety = 'Choose the crop that it is of.'
    else if (draft.fresh.name.trim() === '') faults.variety = 'The new variety wants a name.'
  } else if (variety === '') faults.variety = 'Choose a variety.'
  if (!lane) faults.row = 'Choose a row.'
  const [from, to] = [metresOf(draft.from, units), metresOf(draft.to, units)]
  if (from === 'none') faults.from = `“${draft.from}” is not a number.`
  else if (from !== null && from < 0) faults.from = 'It can’t be below zero.'
  if (to === 'none') faults.to = `“${draft.to}” is not a number.`
  else if (to !== null && lane && to > lane.lengthM + 0.1)
    faults.to = `The row ends at ${rowText(lane.lengthM, units)}.`
  else if (to !== null && to <= (typeof from === 'number' ? from : 0)) faults.to = 'The stretch ends before it begins.'
  const spacing = readNumber(draft.spacing)
  if (draft.spacing.trim() !== '' && !(spacing !== null && spacing > 0))
    faults.spacing = 'It must be a number above zero.'
  const plants = readNumber(draft.plants)
  if (draft.plants.trim() !== '' && !(plants !== null && plants >= 0 && Number.isInteger(plants)))
    faults.plants = 'It must be a whole number.'
  if (!isCalendarDay(draft.setOut)) faults.setOut = 'A day is needed.'
  if (draft.cleared !== '' && draft.cleared < draft.setOut) faults.cleared = 'It can’t be cleared before it is set out.'
  if (Object.keys(faults).length > 0) return { planting: null, faults }
  const kept = draft.kept
  return {
    faults,
    planting: {
      id: draft.id,
      row: draft.row,
      bed: draft.row === null ? bed : null,
      variety,
      from_m: from as number | null,
      to_m: to as number | null,
      set_out: draft.setOut,
      cleared: draft.cleared || null,
      plants: draft.plants.trim() === '' ? null : plants,
      spacing_m: draft.spacing.trim() === '' ? null : spacing! * spacingM(units),
      purpose: kept?.purpose ?? null,
      note: kept?.note ?? null,
      extra: kept?.extra ?? {},
    },
  }
}

function metresOf(text: string, units: Units): number | null | 'none' {
  if (text.trim() === '') return null
  const value = readNumber(text)
  return value === null ? 'none' : value * rowM(units)
}

/** A planting that is kept, as it is typed. */
export function draftOf(planting: Planting, units: Units): Draft {
  const { id, row, variety, from_m, to_m, spacing_m, plants, set_out, cleared } = planting
  return {
    id,
    kept: planting,
    variety,
    fresh: null,
    row,
    from: from_m === null ? '' : rowText(from_m, units),
    to: to_m === null ? '' : rowText(to_m, units),
    spacing: spacing_m === null ? '' : spacingText(spacing_m, units),
    plants: plants === null ? '' : String(plants),
    follows: spacing_m === null ? 'spacing' : 'plants',
    setOut: set_out,
    cleared: cleared ?? '',
  }
}
