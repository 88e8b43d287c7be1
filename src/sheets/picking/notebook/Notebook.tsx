import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Columns, Tells } from '../../../../geo/notebook/columns.ts'
import type { NotebookRead, Ways } from '../../../../geo/notebook/notebook.ts'
import { readNotebook } from '../../../../geo/notebook/readNotebook.ts'
import { splitTable } from '../../../../geo/notebook/splitTable.ts'
import type { NotebookNames } from '../../../desk/door.ts'
import { Dialog } from '../../../ui/Dialog.tsx'
import { Entry } from '../../../ui/Entry.tsx'
import { ask } from '../../state/door.ts'
import { newId } from '../../state/newId.ts'
import { doEdits } from '../../state/steps.ts'
import { COLUMN_OPTIONS } from './columnWords.ts'
import { firstWays, waysFor } from './firstWays.ts'
import { notebookEdits } from './notebookEdits.ts'
import { Outcome } from './Outcome.tsx'
import { Questions } from './Questions.tsx'

const MONTHS = Array.from({ length: 12 }, (_, month) =>
  new Intl.DateTimeFormat(undefined, { month: 'long', timeZone: 'UTC' }).format(new Date(Date.UTC(2024, month, 15))),
)

/** Brings picks in from a table that was pasted or read from a file: columns, questions, names, what will be kept. */
export function Notebook({ onClose }: { readonly onClose: () => void }) {
  const [names, setNames] = useState<NotebookNames | null>(null)
  const [text, setText] = useState('')
  const [ways, setWays] = useState<Ways | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const [keeping, setKeeping] = useState(false)
  useEffect(() => {
    void ask('notebookNames', {}).then((reply) => {
      if (reply.ok) setNames(reply.value)
      else setFault(reply.fault.detail)
    })
  }, [])
  const table = useMemo(() => splitTable(text), [text])
  const read = useMemo<NotebookRead | null>(
    () => (names && ways ? readNotebook(table, names, ways) : null),
    [table, names, ways],
  )
  const take = (next: string) => {
    setText(next)
    setWays(next.trim() === '' ? null : firstWays(splitTable(next), MONTHS))
    setFault(null)
  }
  const keep = async () => {
    if (!read) return
    setKeeping(true)
    const count = `${read.picks.length} ${read.picks.length === 1 ? 'pick' : 'picks'}`
    const reply = await doEdits(`Bring ${count} in from a notebook`, notebookEdits(read.picks, newId))
    setKeeping(false)
    if (reply.ok) onClose()
    else setFault(reply.fault.detail)
  }
  return (
    <Dialog title="Bring in an old notebook" onClose={onClose}>
      <div class="notebook">
        <Entry
          label="Its lines"
          hint="Paste them from a spreadsheet, or open a CSV file. Nothing is kept before you say so."
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
              const { decodeNotebook } = await import('./decodeNotebook.ts')
              const decoded = decodeNotebook(new Uint8Array(await file.arrayBuffer()))
              take(decoded.text)
              if (decoded.assumed) setFault(decoded.assumed)
            }}
          />
        </label>
        {ways && (
          <>
            <ColumnTable table={table} ways={ways} onChange={setWays} />
            {read && names && <Questions read={read} ways={ways} names={names} onChange={setWays} />}
            {read && names && <Outcome read={read} names={names} />}
          </>
        )}
        {fault !== null && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        <p class="deeds">
          <button
            type="button"
            class="first-deed"
            disabled={!read || read.picks.length === 0 || keeping}
            onClick={() => void keep()}
          >
            {read && read.picks.length > 0
              ? `Keep ${read.picks.length.toLocaleString()} ${read.picks.length === 1 ? 'pick' : 'picks'}`
              : 'Nothing to keep yet'}
          </button>
        </p>
      </div>
    </Dialog>
  )
}

interface ColumnsProps {
  readonly table: ReturnType<typeof splitTable>
  readonly ways: Ways
  readonly onChange: (ways: Ways) => void
}

const SAMPLES = 2

/** What each column tells, with its head and first cells; guessed, and changed here. */
function ColumnTable({ table, ways, onChange }: ColumnsProps) {
  const width = Math.max(0, ...table.rows.slice(0, 50).map(({ cells }) => cells.length))
  const heads = ways.hasHead ? (table.rows[0]?.cells ?? []) : []
  const first = (ways.hasHead ? table.rows.slice(1) : table.rows).slice(0, SAMPLES)
  const tellsOf = (at: number): Tells | undefined =>
    COLUMN_OPTIONS.find(({ value }) => ways.columns[value] === at)?.value
  const put = (at: number, tells: Tells | null) => {
    const others = Object.entries(ways.columns).filter(([name, column]) => column !== at && name !== tells)
    const columns = Object.fromEntries([...others, ...(tells === null ? [] : [[tells, at]])]) as Columns
    onChange({ ...waysFor(table, columns, ways), order: ways.order ?? waysFor(table, columns, ways).order })
  }
  return (
    <section aria-label="Columns">
      <h3>What its columns tell</h3>
      <label class="tick">
        <input
          type="checkbox"
          checked={ways.hasHead}
          onChange={(event) =>
            onChange(waysFor(table, ways.columns, { ...ways, hasHead: event.currentTarget.checked }))
          }
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
                {first
                  .map(({ cells }) => cells[at] ?? '')
                  .filter(Boolean)
                  .join(', ')}
              </span>
            </span>
            <select
              aria-label={`What ${heads[at] || `column ${at + 1}`} tells`}
              value={tellsOf(at) ?? ''}
              onChange={(event) =>
                put(at, COLUMN_OPTIONS.find(({ value }) => value === event.currentTarget.value)?.value ?? null)
              }
            >
              <option value="">left out</option>
              {COLUMN_OPTIONS.map(({ value, words }) => (
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
