import type { AnyRecord } from '../model/kind.ts'

/** A line of a card: what, how much, and where the number comes from. */
export interface CardLine {
  readonly label: string
  readonly value: string | number | null
  readonly unit?: 'm' | 'm2' | 'kg' | 'kg/m2' | 'kg/m' | 'deg' | 'day' | 'count'
  /** The grounds of the figure, in words: formula, records, source. */
  readonly from?: string
}

/** Cells are text, numbers, days (`YYYY-MM-DD`) or nothing known. */
export interface CardTable {
  readonly title: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly (string | number | null)[])[]
  /** The records that the rows tell of, in their order: a row opens its card. */
  readonly opens?: { readonly kind: 'dressings' | 'observations' | 'stock_lots'; readonly ids: readonly string[] }
}

/** All that is known of one record on a day. */
export interface Card {
  readonly kind: string
  readonly id: string
  readonly title: string
  readonly subtitle: string
  readonly record: AnyRecord
  readonly lines: readonly CardLine[]
  readonly tables: readonly CardTable[]
}

/** What a kind's own card adds to its record. */
export type CardBody = Omit<Card, 'kind' | 'id' | 'record'>
