import { useState } from 'preact/hooks'
import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { later } from '../../ui/later.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { showCount, showNumber } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { openFarm } from '../state/farm.ts'
import { lots, type ShownLot, shownLots } from '../state/stock.ts'
import { on } from '../state/where.ts'
import { blockedBeds, dueWords, forWords, type LiftLine, liftLines } from './liftLines.ts'
import { printLifting } from './printLifting.ts'
import { saveLots, saveMoves } from './saveStock.ts'
import { openStockForm } from './stockEntry.ts'

const StockTable = later(async () => (await import('./bringIn/StockTable.tsx')).StockTable)

/** The Stock sheet's table: nursery lots and what is left of each, what is to be lifted, and the beds that wait for it. */
export function StockPanel() {
  const [bringing, setBringing] = useState(false)
  if (!lots.value) return null
  const deeds = (
    <p class="deeds">
      <button type="button" class="first-deed" onClick={() => openStockForm({ of: 'lot', lot: null })}>
        New lot
      </button>
      <button type="button" onClick={() => setBringing(true)}>
        Bring a table in
      </button>
      {lots.value.length > 0 && (
        <>
          <button type="button" onClick={saveLots}>
            Save lots as CSV
          </button>
          <button type="button" onClick={saveMoves}>
            Save moves as CSV
          </button>
        </>
      )}
    </p>
  )
  const dialog = bringing && <StockTable onClose={() => setBringing(false)} />
  if (lots.value.length === 0)
    return (
      <>
        <p class="first-steps">
          <strong>No nursery stock is recorded.</strong> Enter a lot of plants that you raise for sale: what they are,
          which bed they stand in, how many. Then tap it to reserve, sell and lift. A table from a spreadsheet can be
          brought in too.
        </p>
        {deeds}
        {dialog}
      </>
    )
  const all = shownLots.value
  const count = (of: 'left' | 'reserved' | 'toLift') => all.reduce((sum, { counts }) => sum + counts[of], 0)
  const over = all.filter(({ counts }) => counts.free < 0)
  return (
    <>
      <Figure
        value={showCount(count('left'))}
        unit="plants"
        from="Of each lot: plants raised less those sold and lost up to the day shown. Reserved are promised and still there; lifted ones are dug and still yours until they are sold."
      >
        left on {showDay(on.value)}; {showCount(count('reserved'))} are reserved, {showCount(count('toLift'))} wait to
        be lifted. {worthWords(all)}
      </Figure>
      {over.map(({ lot, counts }) => (
        <p key={lot.id} class="fault">
          {lot.kind}: {showCount(counts.reserved)} are promised and only {showCount(counts.left)} are left.
        </p>
      ))}
      {deeds}
      <Lots all={all} />
      <Lifting lines={liftLines()} />
      <Blocks />
      {dialog}
    </>
  )
}

function worthWords(all: readonly ShownLot[]): string {
  const worth = all.reduce((sum, { lot, counts }) => sum + (lot.price ?? 0) * counts.left, 0)
  const without = all.filter(({ lot, counts }) => lot.price === null && counts.left > 0).length
  const currency = openFarm.value?.farm.currency ?? ''
  if (worth === 0) return ''
  return `They are worth ${showNumber(worth, 0)} ${currency} at their prices${
    without > 0 ? `; ${showCount(without)} ${without === 1 ? 'lot has' : 'lots have'} no price` : ''
  }.`
}

function Lots({ all }: { readonly all: readonly ShownLot[] }) {
  const number = (head: string, of: (one: ShownLot) => number): Column<ShownLot> => ({
    head,
    number: true,
    cell: (one) => showCount(of(one)),
    sort: of,
  })
  const columns: readonly Column<ShownLot>[] = [
    {
      head: 'lot',
      cell: ({ lot, counts, where }) => (
        <span>
          {lot.kind}
          <span class="of-where">
            {' '}
            {[
              where,
              lot.grade,
              `${showCount(counts.raised)}${lot.year === null ? '' : ` of ${lot.year}`}`,
              lot.price === null ? null : `worth ${showNumber(lot.price * counts.left, 0)}`,
            ]
              .filter(Boolean)
              .join(', ')}
          </span>
        </span>
      ),
      sort: ({ lot, where }) => `${lot.kind} ${where}`,
    },
    number('left', ({ counts }) => counts.left),
    number('reserved', ({ counts }) => counts.reserved),
    number('sold', ({ counts }) => counts.sold),
    number('lifted', ({ counts }) => counts.lifted),
    number('lost', ({ counts }) => counts.lost),
  ]
  return (
    <section aria-label="Lots" class="wide-table">
      <h2>Lots</h2>
      <Table
        caption="Stock lots"
        quietCaption
        columns={columns}
        rows={all}
        rowKey={({ lot }) => lot.id}
        chosen={chosen.value?.kind === 'stock_lots' ? chosen.value.id : null}
        onChoose={({ lot }) => void choose({ kind: 'stock_lots', id: lot.id })}
      />
      <From about="a lot">
        Left: raised less sold and lost. Reserved: promised and not sold yet; a sale uses up what was reserved for the
        same person, or for nobody named. Under the name: bed and row, grade, how many were raised and when, and what
        those left are worth at their price.
      </From>
    </section>
  )
}

function Lifting({ lines }: { readonly lines: readonly LiftLine[] }) {
  const columns: readonly Column<LiftLine>[] = [
    {
      head: 'lot',
      cell: ({ lot: { kind, grade } }) => (
        <span>
          {kind}
          {grade !== null && <span class="of-where"> {grade}</span>}
        </span>
      ),
      sort: ({ lot: { kind, grade } }) => `${kind} ${grade ?? ''}`,
    },
    { head: 'where', cell: ({ where }) => where, sort: ({ where }) => where },
    { head: 'for', cell: forWords },
    { head: 'plants', number: true, cell: ({ count }) => showCount(count), sort: ({ count }) => count },
  ]
  return (
    <section aria-label="To lift">
      <h2>To lift</h2>
      {lines.length === 0 ? (
        <p>Nothing that was sold or reserved by {showDay(on.value)} waits to be lifted.</p>
      ) : (
        <>
          <Table
            caption="Lifting list"
            quietCaption
            columns={columns}
            rows={lines}
            rowKey={({ key }) => key}
            group={dueWords}
            onChoose={({ lot }) => void choose({ kind: 'stock_lots', id: lot.id })}
          />
          <p class="deeds" data-print="no">
            <button type="button" onClick={printLifting}>
              Print the lifting list
            </button>
          </p>
        </>
      )}
    </section>
  )
}

function Blocks() {
  const blocked = blockedBeds()
  if (blocked.length === 0) return null
  return (
    <section aria-label="What it blocks">
      <h2>What it blocks</h2>
      <p>Until these are lifted the bed can’t be dug, nor get posts.</p>
      <ul class="blocks">
        {blocked.map(({ bedName, lots: standing }) => (
          <li key={bedName}>
            <strong>{bedName}</strong>{' '}
            {standing.map(({ lot, counts }) => `${showCount(counts.standing)} ${lot.kind}`).join('; ')}
          </li>
        ))}
      </ul>
    </section>
  )
}
