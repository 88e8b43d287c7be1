import { useState } from 'preact/hooks'
import type { FileLook, FoundTable } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { bringBusy, type ReadAs, readAgain } from '../state/bringing.ts'
import { openFarm } from '../state/farm.ts'
import { swappedByFarm } from './swappedByFarm.ts'

interface Props {
  readonly look: FileLook
  readonly table: FoundTable
  readonly readAs: ReadAs
}

const SWAPPED = 'Read so, all lies far from this farm; were the two swapped, it would lie by it.'
const NONE = 'Choose a column.'

/** Which columns of a table hold its coordinates, and in which grid: as they were taken, or for the person to say. */
export function PlaceColumns({ look, table, readAs }: Props) {
  const [north, setNorth] = useState(table.taken?.north ?? '')
  const [east, setEast] = useState(table.taken?.east ?? '')
  const [grid, setGrid] = useState(readAs.grid ?? '')
  const [missed, setMissed] = useState(false)
  const read = readAs.columns ?? table.taken
  const isRead = read?.north === north && read.east === east
  const swapped = swappedByFarm(look.middle, openFarm.value?.origin ?? null) ? SWAPPED : null
  const faultOf = (chosen: string, wrong: string | null) =>
    chosen === '' ? (missed ? NONE : null) : isRead && wrong ? `“${chosen}” ${wrong}` : null
  const unplaced = look.asksGrid ? gridFault(look) : null
  // By what was read, not by what is being chosen: it stays open until it is read anew.
  const isAmiss = table.taken === null || Boolean(table.wrong.north ?? table.wrong.east ?? swapped ?? unplaced)
  return (
    <details class="more place-columns" open={isAmiss}>
      <summary>{table.taken ? takenWords(table.taken) : 'Which columns hold its coordinates'}</summary>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setMissed(true)
          if (north !== '' && east !== '')
            void readAgain({ grid: grid.trim() === '' ? null : grid.trim(), columns: { north, east } })
        }}
      >
        {table.taken === null && readAs.columns === null && (
          <p class="hint">Their names do not tell. One that holds both, latitude first, is chosen twice.</p>
        )}
        <div class="place-pair">
          <ColumnEntry
            label="North / latitude"
            table={table}
            chosen={north}
            fault={faultOf(north, table.wrong.north ?? swapped)}
            choose={setNorth}
          />
          <ColumnEntry
            label="East / longitude"
            table={table}
            chosen={east}
            fault={faultOf(east, table.wrong.east)}
            choose={setEast}
          />
        </div>
        <Entry
          label="Grid they are in"
          hint="Empty: degrees. Else an EPSG code, such as EPSG:25833, or a PROJ string."
          fault={grid.trim() === (readAs.grid ?? '') ? unplaced : null}
        >
          {(names) => (
            <input
              {...names}
              type="text"
              autocomplete="off"
              value={grid}
              onInput={(e) => setGrid(e.currentTarget.value)}
            />
          )}
        </Entry>
        <p class="deeds">
          <button type="submit" disabled={bringBusy.value !== null}>
            Read them so
          </button>
        </p>
      </form>
    </details>
  )
}

interface ColumnProps {
  readonly label: string
  readonly table: FoundTable
  readonly chosen: string
  readonly fault: string | null
  readonly choose: (column: string) => void
}

function ColumnEntry({ label, table, chosen, fault, choose }: ColumnProps) {
  const sample = table.columns.find(({ name }) => name === chosen)?.sample
  return (
    <Entry label={label} hint={sample} fault={fault}>
      {(names) => (
        <select {...names} value={chosen} onChange={(event) => choose(event.currentTarget.value)}>
          <option value="">none yet</option>
          {table.columns.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Entry>
  )
}

function takenWords({ north, east }: NonNullable<FoundTable['taken']>): string {
  return north === east
    ? `Coordinates: both from “${north}”`
    : `Coordinates: north from “${north}”, east from “${east}”`
}

/** Why the file's places could not be laid in a grid, as the reading told it. */
function gridFault({ notes }: FileLook): string | null {
  const reason = notes.find(({ field }) => field === 'crs')?.reason
  return reason ? `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.` : null
}
