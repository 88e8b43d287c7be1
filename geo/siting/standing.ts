import { type StockLot, type StockMove, stockLots, stockMoves } from '../model/stock.ts'
import type { Metres } from '../plane/lonLat.ts'
import { lotOnDay } from '../stock/lotOnDay.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import { readRecords } from '../store/row.ts'

/** A lot that stands in a bed; `row` is null where it was told by its bed alone, and takes the whole width of it. */
export interface LotStanding {
  readonly id: string
  readonly kind: string
  readonly row: string | null
  /** Plants in the ground. */
  readonly standing: number
}

/** Lots as they are told of a place: "150 Field maple, 40 Fig". */
export const stockWords = (lots: readonly Pick<LotStanding, 'kind' | 'standing'>[]): string =>
  lots.map(({ kind, standing }) => `${standing} ${kind}`).join(', ')

/** By bed: lots that still stand in it on a day. */
export async function lotsStanding(db: Database, on: string): Promise<Map<string, LotStanding[]>> {
  const lots = (await readRecords(db, stockLots)) as unknown as StockLot[]
  const moves = (await readRecords(db, stockMoves)) as unknown as StockMove[]
  const bedOf = new Map(
    (await db.rows<{ id: string; bed: string }>('select id, bed from rows')).map(({ id, bed }) => [id, bed]),
  )
  const found = new Map<string, LotStanding[]>()
  for (const lot of lots) {
    const bed = lot.bed ?? bedOf.get(lot.row ?? '')
    const { standing } = lotOnDay(
      lot.count,
      moves.filter((move) => move.lot === lot.id),
      on,
    )
    if (!bed || standing <= 0) continue
    found.set(bed, [...(found.get(bed) ?? []), { id: lot.id, kind: lot.kind, row: lot.row, standing }])
  }
  return found
}

/** A permanent support that stands. */
export interface StandingRun {
  readonly line: readonly Metres[]
  readonly system: string
  /** The day that it was put up; null where that is not told. */
  readonly putUp: string | null
}

/** Permanent supports that stand on a day. */
export async function standingRuns(db: Database, on: string): Promise<StandingRun[]> {
  const runs = await db.rows<{ shape: string; system: string; putUp: string | null }>(
    `select encode(st_asewkb(plan), 'hex') as shape, system, put_up::text as "putUp" from supports
     where permanent and standing(put_up, taken_down, $1::date) order by ord`,
    [on],
  )
  return runs.map(({ shape, ...run }) => ({
    ...run,
    line: (fromEwkb(shape) as unknown as { coordinates: Metres[] }).coordinates,
  }))
}
