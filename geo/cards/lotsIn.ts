import type { StockMove } from '../model/stock.ts'
import { type LotOnDay, lotOnDay } from '../stock/lotOnDay.ts'
import type { Database } from '../store/database.ts'

/** A stock lot in a bed, with its counts on a day. */
export interface LotInBed {
  readonly id: string
  readonly bed: string
  readonly kind: string
  readonly grade: string | null
  readonly year: number | null
  readonly row: string | null
  readonly counts: LotOnDay
}

/** The stock lots that stand or stood in beds, by their own bed or their row's, as on a day. */
export async function lotsIn(db: Database, beds: readonly string[], on: string): Promise<LotInBed[]> {
  const lots = await db.rows<Omit<LotInBed, 'counts'> & { count: number }>(
    `select l.id, coalesce(r.bed, l.bed) as bed, l.kind, l.grade, l.year, l.count, coalesce(r.name, r.side) as row
     from stock_lots l left join rows r on r.id = l.row where coalesce(r.bed, l.bed) = any($1) order by l.ord`,
    [beds],
  )
  if (lots.length === 0) return []
  const moves = await db.rows<Pick<StockMove, 'lot' | 'on' | 'move' | 'count' | 'to'>>(
    'select lot, "on", move, count, "to" from stock_moves where lot = any($1) and "on" <= $2::date',
    [lots.map(({ id }) => id), on],
  )
  return lots.map(({ count, ...lot }) => ({
    ...lot,
    counts: lotOnDay(
      count,
      moves.filter((move) => move.lot === lot.id),
      on,
    ),
  }))
}
