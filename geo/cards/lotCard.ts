import type { AnyRecord } from '../model/kind.ts'
import { type StockLot, type StockMove, stockMoves } from '../model/stock.ts'
import { lotOnDay } from '../stock/lotOnDay.ts'
import { whereWords } from '../stock/whereWords.ts'
import type { Database } from '../store/database.ts'
import { fromStored, readStored } from '../store/row.ts'
import type { CardBody } from './card.ts'

/** A stock lot on a day: where it stands, its counts, what is left of it and what that is worth. */
export async function lotCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const lot = record as unknown as StockLot
  const [place] = await db.rows<{
    bed: string | null
    name: string | null
    side: string | null
    currency: string | null
  }>(
    `select b.name as bed, r.name, r.side, f.currency from stock_lots l
     left join rows r on r.id = l.row left join beds b on b.id = coalesce(r.bed, l.bed)
     left join farm f on true where l.id = $1`,
    [lot.id],
  )
  const moves = (await readStored(db, stockMoves, { by: 'lot', values: [lot.id] })).map(
    fromStored,
  ) as unknown as StockMove[]
  const counts = lotOnDay(lot.count, moves, on)
  const where = place ? whereWords(place.bed ?? '', place) : ''
  const money = (amount: number) => [amount.toFixed(2), place?.currency].filter(Boolean).join(' ')
  return {
    title: lot.kind,
    subtitle: [lot.grade, lot.year === null ? null : `raised in ${lot.year}`, where].filter(Boolean).join(', '),
    lines: [
      { label: 'raised', value: counts.raised, unit: 'count' },
      { label: 'left', value: counts.left, unit: 'count', from: 'Raised less sold and lost, up to the day shown.' },
      {
        label: 'reserved',
        value: counts.reserved,
        unit: 'count',
        from: 'Promised and not sold yet. A sale uses up what was reserved for the same person, or for nobody named.',
      },
      {
        label: 'free to sell',
        value: counts.free,
        unit: 'count',
        from: 'Left less reserved. Below zero, more is promised than is left.',
      },
      { label: 'sold', value: counts.sold, unit: 'count' },
      { label: 'lifted', value: counts.lifted, unit: 'count', from: 'Dug, whether sold or not.' },
      { label: 'lost', value: counts.lost, unit: 'count' },
      {
        label: 'in the ground',
        value: counts.standing,
        unit: 'count',
        from: 'Raised less lifted and less those that died in the ground. A loss counts to plants lifted before it as long as there are any.',
      },
      { label: 'to lift', value: counts.toLift, unit: 'count', from: 'Sold or reserved, and not lifted yet.' },
      { label: 'price', value: lot.price === null ? null : money(lot.price) },
      {
        label: 'worth left',
        value: lot.price === null ? null : money(lot.price * counts.left),
        from: 'Price times what is left, reserved or not.',
      },
    ],
    tables: [],
  }
}
