import type { Columns } from './columns.ts'
import type { Named } from './matchName.ts'
import type { DayOrder } from './readDay.ts'
import type { Decimal } from './readQuantity.ts'

/** A planting as far as a notebook's line can mean it. */
export interface NotebookPlanting {
  readonly id: string
  readonly crop: string
  readonly variety: string
  readonly bed: string
  readonly row: string | null
  readonly side: string | null
  readonly setOut: string
  readonly cleared: string | null
  readonly lengthM: number
}

/** The farm as a notebook is matched with it. */
export interface FarmNames {
  readonly crops: readonly Named[]
  readonly varieties: readonly (Named & { readonly crop: string })[]
  readonly beds: readonly Named[]
  readonly plantings: readonly NotebookPlanting[]
  readonly containers: readonly { readonly unit: string; readonly kg: number; readonly crop: string | null }[]
  readonly picks: readonly {
    readonly on: string
    readonly planting: string | null
    readonly bed: string | null
    readonly quantity: number
    readonly unit: string
  }[]
}

/** What is named in a notebook that the farm does not know by that name. */
export type Matched = 'crop' | 'variety' | 'bed' | 'unit'

/** How a person said that the notebook is to be read. */
export interface Ways {
  readonly columns: Columns
  /** True where the first line heads the columns. */
  readonly hasHead: boolean
  readonly order: DayOrder | null
  readonly year: number | null
  readonly decimal: Decimal | null
  /** The unit of quantities that tell none. */
  readonly unit: string | null
  readonly months: readonly string[]
  /** What a name means: an id, or for a unit the unit itself, by `crop:name`. */
  readonly meant: ReadonlyMap<string, string>
  /** Where a crop stood in several plantings that a line may mean: leave the line out, or divide it over them by length. */
  readonly several: 'leave' | 'divide'
  /** Where no such planting is recorded in the bed on the day: leave the line out, or count it to the bed. */
  readonly absent: 'leave' | 'bed'
  /** What is there already, told the same: leave it out, or keep it a second time. */
  readonly again: 'leave' | 'keep'
}

export const meantKey = (of: Matched, told: string): string => `${of}:${told}`

/** A pick that a line gives, ready to be kept. */
export interface NotebookPick {
  readonly line: number
  readonly on: string
  readonly planting: string | null
  readonly bed: string | null
  readonly lon: number | null
  readonly lat: number | null
  readonly quantity: number
  readonly unit: string
  readonly kgPerUnit: number
  readonly crop: string | null
  readonly grade: string | null
  readonly picker: string | null
  readonly note: string | null
  readonly to: string | null
  readonly use: string | null
}

/** Why a line gives no pick. */
export interface LineFault {
  readonly line: number
  readonly reason: string
}

/** A name that must be matched by hand, on how many lines, and what it may mean. */
export interface Unmatched {
  readonly of: Matched
  readonly told: string
  readonly lines: number
  readonly suggestions: readonly Named[]
}

export interface NotebookRead {
  readonly picks: readonly NotebookPick[]
  readonly faults: readonly LineFault[]
  readonly unmatched: readonly Unmatched[]
  /** What must be known before all lines can be read. */
  readonly asks: readonly ('order' | 'year' | 'decimal' | 'unit')[]
  /** Lines that hold a pick or a fault. */
  readonly lines: number
}
