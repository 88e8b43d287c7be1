import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { showCount } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { bedOfRow } from '../state/plantings.ts'
import { measured } from '../state/shown.ts'
import { lots, moves } from '../state/stock.ts'
import { on } from '../state/where.ts'
import { type LotLeft, lotsLeft } from './lotsLeft.ts'

/** The Stock sheet's table: nursery lots and how many of each are left. */
export function StockPanel() {
  if (!lots.value) return null
  if (lots.value.length === 0)
    return (
      <p class="first-steps">
        <strong>No nursery stock is recorded.</strong> Bring in an archive with <code>stock_lots.csv</code> and{' '}
        <code>stock_moves.csv</code>: each lot is listed here with what is left of it.
      </p>
    )
  const left = lotsLeft(lots.value, moves.value, on.value)
  const bedName = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const count = (of: 'left' | 'reserved') => left.reduce((sum, lot) => sum + lot[of], 0)
  const bedOf = (lot: LotLeft) => lot.bed ?? (lot.row === null ? undefined : bedOfRow.value.get(lot.row)) ?? null
  const where = (lot: LotLeft) => bedName.get(bedOf(lot) ?? '') ?? ''
  const columns: readonly Column<LotLeft>[] = [
    {
      head: 'lot',
      cell: (lot) => (lot.grade === null ? lot.kind : `${lot.kind}, ${lot.grade}`),
      sort: (lot) => lot.kind,
    },
    { head: 'bed', cell: where, sort: where },
    { head: 'raised', number: true, cell: (lot) => showCount(lot.count), sort: (lot) => lot.count },
    { head: 'gone', number: true, cell: (lot) => showCount(lot.gone), sort: (lot) => lot.gone },
    { head: 'left', number: true, cell: (lot) => showCount(lot.left), sort: (lot) => lot.left },
    { head: 'reserved', number: true, cell: (lot) => showCount(lot.reserved), sort: (lot) => lot.reserved },
  ]
  return (
    <>
      <Figure
        value={showCount(count('left'))}
        unit="plants"
        from="Of each lot: plants raised less those sold, lifted and lost up to the day shown. Reserved are promised and still there: they are part of what is left."
      >
        left on {showDay(on.value)}; {showCount(count('reserved'))} are reserved
      </Figure>
      <section aria-label="Lots">
        <h2>Lots</h2>
        <Table
          caption="Stock lots"
          quietCaption
          columns={columns}
          rows={left}
          rowKey={(lot) => lot.id}
          onChoose={(lot) => {
            const bed = bedOf(lot)
            if (bed !== null) void choose({ kind: 'beds', id: bed })
          }}
        />
        <From about="a lot">Gone: sold, lifted and lost together. Left: raised less gone.</From>
      </section>
    </>
  )
}
