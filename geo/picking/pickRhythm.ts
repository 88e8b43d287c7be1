import type { Database } from '../store/database.ts'
import type { Days } from './pickPlaces.ts'

/**
 * What tells when a planting is due: its own pickings of the season, else those of the plantings of its variety, else of
 * its crop; of one never picked, the crop's usual days to the first pick.
 */
export type DueBy = 'own' | 'variety' | 'crop' | 'first pick'

/** A planting that stands on the day, how often it has been picked this season, and when it is due again. */
export interface Rhythm {
  readonly planting: string
  readonly crop: string
  readonly variety: string
  readonly bed: string
  readonly side: string | null
  /** Days on which it was picked from the season's first day to the day looked at. */
  readonly pickDays: number
  /** The day on which it was picked last, in whatever season; null where it was never picked. */
  readonly last: string | null
  /** Days since then. */
  readonly sinceDays: number | null
  /** Null where there is too little to tell. */
  readonly by: DueBy | null
  /** Median of the days from one picking to the next, by its own or by others; null where none of them tells it. */
  readonly everyDays: number | null
  /** Days over its time, below zero before it; null where there is too little to tell. */
  readonly overDays: number | null
}

/** Pickings from which a planting's own rhythm is told: two intervals at the least. */
export const RHYTHM_PICKS = 3

/**
 * What the plantings of a variety or a crop must have given for another to be told by them: twice the intervals of a
 * rhythm of its own, and not all from one planting.
 */
export const SHARED_RHYTHM = { intervals: 4, plantings: 2 } as const

const SHARED = (of: string) => `
  select ${of} as key, percentile_cont(0.5) within group (order by g.gap) as median
  from gaps g join plantings p on p.id = g.planting join varieties v on v.id = p.variety
  where g.gap is not null group by ${of} having count(*) >= $4 and count(distinct g.planting) >= $5`

/**
 * Days since each standing planting was last picked against the rhythm of the season so far, what is longest over its
 * time first: by days since the last picking less the median interval (`SHARED_RHYTHM` says when others' is taken, which
 * a planting that was not picked this season is not told by). One never picked is due so many days after it was set out
 * as its crop tells, where that day is not in a season before. Then come those of which there is too little to tell, the
 * longest unpicked first, then those never picked. Several picks of one day are one picking.
 */
export async function pickRhythm(db: Database, { from, to }: Days): Promise<Rhythm[]> {
  return db.rows<Rhythm>(
    `with standing_now as (
       select p.* from plantings p where standing(p.set_out, p.cleared, $2::date)
     ), days as (
       select distinct k.planting, k."on" from picks k
       where k.planting is not null and k."on" between $1::date and $2::date
     ), gaps as (
       select planting, "on", "on" - lag("on") over (partition by planting order by "on") as gap from days
     ), own as (
       select planting, count(*)::integer as pick_days, percentile_cont(0.5) within group (order by gap) as median
       from gaps group by planting
     ), of_variety as (${SHARED('p.variety')}
     ), of_crop as (${SHARED('v.crop')}
     ), latest as (
       select k.planting, max(k."on") as last from picks k join standing_now p on p.id = k.planting
       where k."on" <= $2::date group by k.planting
     ), told as (
       select p.id, p.ord, p.set_out, c.name as crop, v.name as variety, b.name as bed,
         coalesce(r.side, r.name) as side, coalesce(o.pick_days, 0) as pick_days, l.last, o.median as own,
         ofv.median as of_variety, ofc.median as of_crop, round(c.first_pick_days) as first_pick,
         case when o.pick_days >= $3 then 'own'
           when o.pick_days > 0 and ofv.median is not null then 'variety'
           when o.pick_days > 0 and ofc.median is not null then 'crop'
           when l.last is null and round(c.first_pick_days) >= $1::date - p.set_out then 'first pick' end as due_by
       from standing_now p
       join varieties v on v.id = p.variety join crops c on c.id = v.crop
       left join rows r on r.id = p.row join beds b on b.id = coalesce(r.bed, p.bed)
       left join own o on o.planting = p.id left join latest l on l.planting = p.id
       left join of_variety ofv on ofv.key = p.variety left join of_crop ofc on ofc.key = v.crop
     ), timed as (
       select *, $2::date - last as since,
         case due_by when 'own' then own when 'variety' then of_variety when 'crop' then of_crop end as every
       from told
     ), due as (
       select *, case due_by when 'first pick' then ($2::date - set_out) - first_pick else since - every end as over_days from timed
     )
     select id as planting, crop, variety, bed, side, pick_days as "pickDays", last, since as "sinceDays", due_by as by,
       every as "everyDays", over_days as "overDays"
     from due order by over_days desc nulls last, last nulls last, ord`,
    [from, to, RHYTHM_PICKS, SHARED_RHYTHM.intervals, SHARED_RHYTHM.plantings],
  )
}
