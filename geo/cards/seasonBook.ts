import { PICK_BED, PICK_PLACES } from '../picking/pickPlaces.ts'
import type { Database } from '../store/database.ts'
import { type Days, type DressedBed, dressingsOf, type SeenInBed, seenIn } from './inBeds.ts'
import { type LotInBed, lotsIn } from './lotsIn.ts'

export interface BookPlanting {
  readonly planting: string
  readonly bed: string
  readonly crop: string
  readonly variety: string
  readonly row: string | null
  readonly from: string
  readonly until: string | null
  readonly length_m: number
  readonly kg: number
  readonly picks: number
  /** Picks of it whose container has no known weight. */
  readonly unweighed: number
}

export interface BookBed {
  readonly id: string
  readonly name: string
  readonly field: string
  readonly area_m2: number
  readonly rows: readonly { readonly name: string | null; readonly side: string | null; readonly length_m: number }[]
  readonly plantings: readonly BookPlanting[]
  /** Picks told of the bed as a whole, or of a spot in it. */
  readonly others: { readonly kg: number; readonly picks: number; readonly unweighed: number }
  readonly dressings: readonly DressedBed[]
  readonly seen: readonly SeenInBed[]
  /** Stock lots as on the last day. */
  readonly lots: readonly LotInBed[]
}

/** A season by bed, field by field: rows, what stood or was picked with its days and picks, what was put on, seen, and raised for sale. */
export async function seasonBook(db: Database, days: Days): Promise<readonly BookBed[]> {
  const beds = await db.rows<{ id: string; name: string; field: string; area_m2: number }>(
    `select b.id, b.name, f.name as field, st_area(b.plan) as area_m2 from beds b join fields f on f.id = b.field
     where coalesce(b.made <= $2::date, true) and coalesce(b.retired > $1::date, true) order by f.ord, b.ord`,
    [days.from, days.to],
  )
  const ids = beds.map(({ id }) => id)
  const rows = await db.rows<{ bed: string; name: string | null; side: string | null; length_m: number }>(
    'select bed, name, side, st_length(plan) as length_m from rows where bed = any($1) order by ord',
    [ids],
  )
  const plantings = await db.rows<BookPlanting>(
    `select s.planting, coalesce(r.bed, p.bed) as bed, c.name as crop, v.name as variety, coalesce(r.name, r.side) as row,
      s.set_out as "from", s.cleared as until, st_length(s.plan) as length_m,
      coalesce(k.kg, 0) as kg, coalesce(k.picks, 0)::integer as picks, coalesce(k.unweighed, 0)::integer as unweighed
     from stretches s join plantings p on p.id = s.planting left join rows r on r.id = p.row
     join crops c on c.id = s.crop join varieties v on v.id = s.variety
     left join (
       select planting, sum(kg) as kg, count(*) as picks, count(*) filter (where kg is null) as unweighed
       from picks where "on" between $2::date and $3::date group by planting
     ) k on k.planting = s.planting
     where coalesce(r.bed, p.bed) = any($1)
       and (k.planting is not null or (s.set_out <= $3::date and coalesce(s.cleared >= $2::date, true)))
     order by s.set_out, p.ord`,
    [ids, days.from, days.to],
  )
  const others = await db.rows<{ bed: string; kg: number; picks: number; unweighed: number }>(
    `select ${PICK_BED} as bed, coalesce(sum(k.kg), 0) as kg, count(*)::integer as picks,
      (count(*) filter (where k.kg is null))::integer as unweighed
     from picks k ${PICK_PLACES}
     where k.planting is null and k."on" between $2::date and $3::date and ${PICK_BED} = any($1) group by 1`,
    [ids, days.from, days.to],
  )
  const dressings = await dressingsOf(db, ids, days)
  const seen = await seenIn(db, ids, days)
  const lots = await lotsIn(db, ids, days.to)
  const of = <R extends { readonly bed: string }>(all: readonly R[], id: string) => all.filter(({ bed }) => bed === id)
  return beds.map((bed) => ({
    ...bed,
    rows: of(rows, bed.id),
    plantings: of(plantings, bed.id),
    others: of(others, bed.id)[0] ?? { kg: 0, picks: 0, unweighed: 0 },
    dressings: of(dressings, bed.id),
    seen: of(seen, bed.id),
    lots: of(lots, bed.id),
  }))
}
