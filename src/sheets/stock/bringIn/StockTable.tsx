import { useMemo, useState } from 'preact/hooks'
import { orderToldBy } from '../../../../geo/notebook/readDay.ts'
import { type SplitTable, splitTable } from '../../../../geo/notebook/splitTable.ts'
import { readStock, type StockNames, type StockWays } from '../../../../geo/notebook/stock/readStock.ts'
import {
  guessStockColumns,
  isStockHead,
  type StockColumns,
  type StockTells,
} from '../../../../geo/notebook/stock/stockColumns.ts'
import { Choice } from '../../../ui/Choice.tsx'
import { Dialog } from '../../../ui/Dialog.tsx'
import { Entry } from '../../../ui/Entry.tsx'
import { Table } from '../../../ui/Table.tsx'
import { showCount } from '../../show/figures.ts'
import { newId } from '../../state/newId.ts'
import { layers, measured } from '../../state/shown.ts'
import { doEdits, type Edits } from '../../state/steps.ts'
import { lots, moves } from '../../state/stock.ts'
import { on } from '../../state/where.ts'
import { STOCK_OPTIONS } from './stockWords.ts'

const MONTHS = Array.from({ length: 12 }, (_, month) =>
  new Intl.DateTimeFormat(undefined, { month: 'long', timeZone: 'UTC' }).format(new Date(Date.UTC(2024, month, 15))),
)

function firstWays(table: SplitTable): StockWays {
  const heads = table.rows[0]?.cells ?? []
  const hasHead = isStockHead(heads)
  return waysFor(table, {
    columns: hasHead ? guessStockColumns(heads) : {},
    hasHead,
    order: null,
    months: MONTHS,
    on: on.value,
  })
}

/** The same ways, with what the column of days gives away of their order. */
function waysFor(table: SplitTable, ways: StockWays): StockWays {
  const rows = ways.hasHead ? table.rows.slice(1) : table.rows
  const days = [ways.columns.day, ways.columns.due].flatMap((at) =>
    at === undefined ? [] : rows.map(({ cells }) => cells[at] ?? ''),
  )
  return { ...ways, order: orderToldBy(days) ?? ways.order }
}

/** Brings lots or moves in from a table that was pasted or read from a file: columns, what will be kept, and what not. */
export function StockTable({ onClose }: { readonly onClose: () => void }) {
  const [text, setText] = useState('')
  const [ways, setWays] = useState<StockWays | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const [keeping, setKeeping] = useState(false)
  const table = useMemo(() => splitTable(text), [text])
  const read = useMemo(() => (ways ? readStock(table, stockNames(), ways, newId) : null), [table, ways])
  const take = (next: string) => {
    setText(next)
    setWays(next.trim() === '' ? null : firstWays(splitTable(next)))
    setFault(null)
  }
  const words = read ? whatIsKept(read.lots.length, read.moves.length) : ''
  const keep = async () => {
    if (!read) return
    setKeeping(true)
    const edits: Edits = [
      ...read.lots.map((record) => ({ do: 'add', kind: 'stock_lots', record }) as const),
      ...read.moves.map((record) => ({ do: 'add', kind: 'stock_moves', record }) as const),
    ]
    const reply = await doEdits(`Bring ${words} in from a table`, edits)
    setKeeping(false)
    if (reply.ok) onClose()
    else setFault(reply.fault.detail)
  }
  return (
    <Dialog title="Bring stock in from a table" onClose={onClose}>
      <div class="notebook">
        <Entry
          label="Its lines"
          hint="Lots, or what became of them: paste from a spreadsheet, or open a CSV file. Nothing is kept before you say so."
        >
          {(labels) => (
            <textarea {...labels} rows={5} value={text} onInput={(event) => take(event.currentTarget.value)} />
          )}
        </Entry>
        <label class="file">
          <span>Open a CSV file</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            onChange={async (event) => {
              const file = event.currentTarget.files?.[0]
              if (!file) return
              const { decodeNotebook } = await import('../../picking/notebook/decodeNotebook.ts')
              const decoded = decodeNotebook(new Uint8Array(await file.arrayBuffer()))
              take(decoded.text)
              if (decoded.assumed) setFault(decoded.assumed)
            }}
          />
        </label>
        {ways && read && (
          <>
            <StockColumnList table={table} ways={ways} onChange={setWays} />
            {(read.asksOrder || ways.order !== null) && (
              <div class="question">
                <p>
                  {read.asksOrder ? (
                    <strong>Is 03/04 the 3rd of April, or March the 4th?</strong>
                  ) : (
                    'Days in numbers are read with'
                  )}
                </p>
                <Choice
                  label="Order of day and month"
                  options={[
                    { value: 'day first', words: 'the day first' },
                    { value: 'month first', words: 'the month first' },
                  ]}
                  value={ways.order ?? ''}
                  onChange={(order) => setWays({ ...ways, order: order === '' ? null : order })}
                />
              </div>
            )}
            <section aria-label="What would be kept">
              <h3>What would be kept</h3>
              <p role="status">
                {words === '' ? 'Nothing' : words}, from {showCount(read.lines)} lines.
              </p>
              {read.faults.length > 0 && (
                <>
                  <h3>Left out</h3>
                  <Table
                    caption="Lines left out, and why"
                    quietCaption
                    columns={[
                      { head: 'line', number: true, cell: ({ line }) => line },
                      { head: 'why', cell: ({ reason }) => reason },
                    ]}
                    rows={read.faults}
                    rowKey={({ line, reason }) => `${line} ${reason}`}
                    few={8}
                  />
                </>
              )}
            </section>
          </>
        )}
        {fault !== null && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        <p class="deeds">
          <button type="button" class="first-deed" disabled={words === '' || keeping} onClick={() => void keep()}>
            {words === '' ? 'Nothing to keep yet' : `Keep ${words}`}
          </button>
        </p>
      </div>
    </Dialog>
  )
}

const counted = (count: number, one: string, many: string) =>
  count === 0 ? [] : [`${showCount(count)} ${count === 1 ? one : many}`]
const whatIsKept = (lotCount: number, moveCount: number) =>
  [...counted(lotCount, 'lot', 'lots'), ...counted(moveCount, 'move', 'moves')].join(' and ')

function stockNames(): StockNames {
  return {
    beds: measured.peek()?.beds ?? [],
    rows: layers.peek()?.rows.features.map(({ properties }) => properties) ?? [],
    lots: lots.peek() ?? [],
    moves: moves.peek(),
  }
}

interface ColumnsProps {
  readonly table: SplitTable
  readonly ways: StockWays
  readonly onChange: (ways: StockWays) => void
}

/** What each column tells, guessed by its head and changed here. */
function StockColumnList({ table, ways, onChange }: ColumnsProps) {
  const width = Math.max(0, ...table.rows.slice(0, 50).map(({ cells }) => cells.length))
  const heads = ways.hasHead ? (table.rows[0]?.cells ?? []) : []
  const samples = (ways.hasHead ? table.rows.slice(1) : table.rows).slice(0, 2)
  const tellsOf = (at: number) => STOCK_OPTIONS.find(({ value }) => ways.columns[value] === at)?.value
  const put = (at: number, tells: StockTells | null) => {
    const others = Object.entries(ways.columns).filter(([name, column]) => column !== at && name !== tells)
    const columns = Object.fromEntries([...others, ...(tells === null ? [] : [[tells, at]])]) as StockColumns
    onChange(waysFor(table, { ...ways, columns }))
  }
  return (
    <section aria-label="Columns">
      <h3>What its columns tell</h3>
      <label class="tick">
        <input
          type="checkbox"
          checked={ways.hasHead}
          onChange={(event) => onChange(waysFor(table, { ...ways, hasHead: event.currentTarget.checked }))}
        />
        the first line heads the columns
      </label>
      <ul class="columns">
        {Array.from({ length: width }, (_, at) => (
          <li key={at}>
            <span>
              <strong>{heads[at] || `column ${at + 1}`}</strong>
              <span class="hint">
                {' '}
                {samples
                  .map(({ cells }) => cells[at] ?? '')
                  .filter(Boolean)
                  .join(', ')}
              </span>
            </span>
            <select
              aria-label={`What ${heads[at] || `column ${at + 1}`} tells`}
              value={tellsOf(at) ?? ''}
              onChange={(event) =>
                put(at, STOCK_OPTIONS.find(({ value }) => value === event.currentTarget.value)?.value ?? null)
              }
            >
              <option value="">left out</option>
              {STOCK_OPTIONS.map(({ value, words }) => (
                <option key={value} value={value}>
                  {words}
                </option>
              ))}
            </select>
          </li>
        ))}
      </ul>
    </section>
  )
}
