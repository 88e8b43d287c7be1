import type { BedPlan } from '../../../../geo/layout/layBeds.ts'
import type { RowPlan } from '../../../../geo/layout/layRows.ts'
import type { NamePattern } from '../../../../geo/layout/names.ts'
import type { Units } from '../../show/figures.ts'
import { type PlanFaults, type PlanTyped, planReader } from './planTyped.ts'

/** Metres to keep clear of what stands. */
export interface ClearOf {
  readonly treesM: number
  readonly structuresM: number
  readonly bedsM: number
}

export interface BedsAsked {
  readonly plan: Omit<BedPlan, 'bearingDeg'>
  /** Null where the bearing is not typed. */
  readonly bearingDeg: number | null
  readonly clear: ClearOf
  readonly names: NamePattern
  readonly countFrom: 'left' | 'right'
  readonly made: string | null
  readonly rows: RowPlan | null
}

/** What was typed for beds, with what is wrong by entry. */
export function readBedsAsked(
  typed: PlanTyped,
  units: Units,
): { readonly asked: BedsAsked; readonly faults: PlanFaults } {
  const read = planReader(typed, units)
  const asked: BedsAsked = {
    plan: {
      by: typed.by === 'count' ? { count: read.whole('count', 1, 2000) } : { widthM: read.sizeM('width') },
      pathM: read.lengthM('path', 0),
      headlandM: read.lengthM('headland', 0),
      headland: typed.headlandWhere === 'ends' ? 'ends' : 'all round',
      begin: typed.begin === 'right' ? 'right' : typed.begin === 'most' ? 'most' : 'left',
      pieces: typed.pieces === 'every' ? 'every' : 'longest',
      leastLengthM: read.lengthM('least', 0),
      lengthM: typed.length.trim() === '' ? null : read.sizeM('length'),
    },
    bearingDeg: typed.along === 'typed' ? read.degrees('bearing') : null,
    clear: {
      treesM: read.lengthM('trees', 0),
      structuresM: read.lengthM('structures', 0),
      bedsM: read.lengthM('beds', 0),
    },
    names: {
      prefix: typed.prefix,
      start: read.whole('start', 0, 999_999),
      digits: read.whole('digits', 1, 6),
    },
    countFrom: typed.counting === 'right' ? 'right' : 'left',
    made: typed.made === '' ? null : typed.made,
    rows: typed.rowsBy === 'none' ? null : rowPlan(typed, read),
  }
  return { asked, faults: read.faults }
}

/** What was typed for rows, with what is wrong by entry. */
export function readRowsAsked(typed: PlanTyped, units: Units): { readonly plan: RowPlan; readonly faults: PlanFaults } {
  const read = planReader(typed, units)
  return { plan: rowPlan(typed, read), faults: read.faults }
}

function rowPlan(typed: PlanTyped, read: ReturnType<typeof planReader>): RowPlan {
  return { by: rowsBy(typed, read), edgeM: read.lengthM('rowEdge', 0), endM: read.lengthM('rowEnd', 0) }
}

function rowsBy(typed: PlanTyped, read: ReturnType<typeof planReader>): RowPlan['by'] {
  if (typed.rowsBy === 'count') return { count: read.whole('rowCount', 1, 500) }
  if (typed.rowsBy === 'spacing') return { spacingM: read.sizeM('rowSpacing') }
  const sides = [
    typed.rowLeft === 'yes' ? ['left' as const] : [],
    typed.rowMiddle === 'yes' ? ['middle' as const] : [],
    typed.rowRight === 'yes' ? ['right' as const] : [],
  ].flat()
  if (sides.length === 0) read.faults.rowMiddle = 'Choose a side at least.'
  return { sides }
}
