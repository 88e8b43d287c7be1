import type { Database } from '../store/database.ts'

/** Something seen counts to a bed within this distance of its edge: people stand in the path beside it. */
export const SEEN_WITHIN_M = 0.75

/** First and last day looked at, `YYYY-MM-DD`, both inside. */
export interface Days {
  readonly from: string
  readonly to: string
}

export interface DressedBed {
  readonly id: string
  readonly bed: string
  readonly on: string
  readonly material: string
  readonly kg_per_m2: number | null
  readonly raw_manure: boolean | null
  readonly note: string | null
}

/** What was put on beds in some days, the latest first. */
export function dressingsOf(db: Database, beds: readonly string[], { from, to }: Days): Promise<DressedBed[]> {
  return db.rows<DressedBed>(
    `select id, bed, "on", material, kg_per_m2, raw_manure, note from dressings
     where bed = any($1) and "on" between $2::date and $3::date order by "on" desc, ord desc`,
    [beds, from, to],
  )
}

export interface SeenInBed {
  readonly id: string
  readonly bed: string
  readonly on: string
  readonly kind: string
  readonly severity: number | null
  readonly note: string | null
}

/** What was seen in beds, or within 0.75 m of them, in some days, the latest first. */
export function seenIn(db: Database, beds: readonly string[], { from, to }: Days): Promise<SeenInBed[]> {
  return db.rows<SeenInBed>(
    `select o.id, b.id as bed, o."on", o.kind, o.severity, o.note
     from beds b join observations o on st_dwithin(b.plan, o.plan, ${SEEN_WITHIN_M})
     where b.id = any($1) and o."on" between $2::date and $3::date order by o."on" desc, o.ord desc`,
    [beds, from, to],
  )
}
