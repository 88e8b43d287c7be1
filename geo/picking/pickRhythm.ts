import type { Database } from '../store/database.ts'

/** A planting that stands on the day, and how often it has been picked so far. */
export interface Rhythm {
  readonly planting: string
  readonly crop: string
  readonly variety: string
  readonly bed: string
  readonly side: string | null
  /** Days on which it was picked up to the day looked at. */
  readonly pickDays: number
  /** The last of these; null where it was never picked. */
  readonly last: string | null
  /** Days since then. */
  readonly sinceDays: number | null
  /** Median of the days from one picking to the next; null where there are fewer than `RHYTHM_PICKS` pickings. */
  readonly everyDays: number | null
}

/** Pickings from which a rhythm is told: two intervals at the least. */
export const RHYTHM_PICKS = 3

/**
 * Days since each standing planting was last picked against its own rhythm, what is longest over its time first:
 * by days since the last picking less the median interval, then those too seldom picked to tell, the longest unpicked
 * first, then those never picked. Several picks of one day are one picking.
 */
export async function pickRhythm(db: Database, on: string): Promise<Rhythm[]> {
  return db.rows<Rhythm>(
    `with standing_now as (
       select p.* from plantings p where standing(p.set_out, p.cleared, $1::date)
     ), days as (
       select distinct k.planting, k."on" from picks k join standing_now p on p.id = k.planting where k."on" <= $1::date
     ), gaps as (
       select planting, "on", "on" - lag("on") over (partition by planting order by "on") as gap from days
     ), told as (
       select planting, count(*)::integer as pick_days, max("on") as last,
         percentile_cont(0.5) within group (order by gap) as median
       from gaps group by planting
     )
     select p.id as planting, c.name as crop, v.name as variety, b.name as bed, coalesce(r.side, r.name) as side,
       coalesce(t.pick_days, 0) as "pickDays", t.last, $1::date - t.last as "sinceDays",
       case when t.pick_days >= $2 then t.median end as "everyDays"
     from standing_now p
     join varieties v on v.id = p.variety join crops c on c.id = v.crop
     left join rows r on r.id = p.row join beds b on b.id = coalesce(r.bed, p.bed)
     left join told t on t.planting = p.id
     order by case when t.pick_days >= $2 then ($1::date - t.last) - t.median end desc nulls last,
       t.last nulls last, p.ord`,
    [on, RHYTHM_PICKS],
  )
}
