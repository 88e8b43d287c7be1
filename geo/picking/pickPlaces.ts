/**
 * SQL of picks with where each belongs: crop and bed by the planting that it was told of, else the bed, else the bed
 * that holds its spot (the first made where two do). A crop is known only by a planting. Wants picks as `k`, and gives
 * `crop` and `bed`, null where not known.
 */
export const PICK_PLACES = `
  left join plantings p on p.id = k.planting
  left join varieties v on v.id = p.variety
  left join rows r on r.id = p.row
  left join lateral (
    select b.id from beds b where k.plan is not null and st_covers(b.plan, k.plan) order by b.ord limit 1
  ) spot on true`

/** The bed of a pick joined by `PICK_PLACES`. */
export const PICK_BED = 'coalesce(r.bed, p.bed, k.bed, spot.id)'

/** First and last day looked at, `YYYY-MM-DD`, both inside. */
export interface Days {
  readonly from: string
  readonly to: string
}
