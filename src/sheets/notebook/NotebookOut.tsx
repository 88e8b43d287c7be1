import { useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { openFarm } from '../state/farm.ts'
import { season } from '../state/where.ts'
import { printBook } from './printBook.ts'
import { saveTable, TABLES } from './tables.ts'

/** The notebook goes out: the season as a book to print, a page a bed; any table as a CSV for a spreadsheet. */
export function NotebookOut({ onClose }: { readonly onClose: () => void }) {
  const [of, setOf] = useState(season.value)
  const [table, setTable] = useState(TABLES[0]!.kind)
  const [fault, setFault] = useState<string | null>(null)
  const [busy, setBusy] = useState(false)
  const seasons = [...new Set([...(openFarm.value?.seasons ?? []), season.value])].sort((a, b) => b - a)
  const run = async (work: () => Promise<string | null>, shut: boolean) => {
    setBusy(true)
    const went = await work()
    setBusy(false)
    setFault(went)
    if (went === null && shut) onClose()
  }
  return (
    <Dialog title="Take the notebook out" onClose={onClose}>
      <section aria-label="The season as a book">
        <h3>The season as a book</h3>
        <p>One page a bed: its map, rows, plantings and picks, what was put on, what was seen, and stock.</p>
        <Entry label="Season">
          {(labels) => (
            <select {...labels} value={of} onChange={(event) => setOf(Number(event.currentTarget.value))}>
              {seasons.map((one) => (
                <option key={one} value={one}>
                  {one}
                </option>
              ))}
            </select>
          )}
        </Entry>
        <p class="deeds">
          <button type="button" class="first-deed" disabled={busy} onClick={() => void run(() => printBook(of), true)}>
            Lay out the book
          </button>
        </p>
      </section>
      <section aria-label="A table">
        <h3>A table for a spreadsheet</h3>
        <Entry label="Table">
          {(labels) => (
            <select {...labels} value={table} onChange={(event) => setTable(event.currentTarget.value)}>
              {TABLES.map(({ kind, words }) => (
                <option key={kind} value={kind}>
                  {words}
                </option>
              ))}
            </select>
          )}
        </Entry>
        <p class="deeds">
          <button type="button" disabled={busy} onClick={() => void run(() => saveTable(table), false)}>
            Save as CSV
          </button>
        </p>
        <p class="hint">
          Texts that begin with =, +, −, @, a tab or a line break get an apostrophe before them, so that no spreadsheet
          runs them as a formula; so do texts that begin with an apostrophe, and what begins so after a semicolon, a tab
          or a line break within a text. Taking that apostrophe away gives the text back. Names stand beside ids. For
          keeping, save the farm as an archive: it holds everything, and unchanged.
        </p>
      </section>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
    </Dialog>
  )
}
