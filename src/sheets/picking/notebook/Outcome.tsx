import { useMemo } from 'preact/hooks'
import type { NotebookPick, NotebookRead } from '../../../../geo/notebook/notebook.ts'
import type { NotebookNames } from '../../../desk/door.ts'
import { type Column, Table } from '../../../ui/Table.tsx'
import { showDay } from '../../show/dates.ts'
import { massFigure, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'

const FEW = 8

/** What would be kept, and which lines would not and why. */
export function Outcome({ read, names }: { readonly read: NotebookRead; readonly names: NotebookNames }) {
  const placeOf = useMemo(() => placesBy(names), [names])
  const kg = read.picks.reduce((sum, { quantity, kgPerUnit }) => sum + quantity * kgPerUnit, 0)
  const columns: readonly Column<NotebookPick>[] = [
    { head: 'line', number: true, cell: ({ line }) => line },
    { head: 'day', cell: ({ on }) => showDay(on) },
    { head: 'where', cell: (pick) => placeOf(pick) },
    {
      head: 'how much',
      number: true,
      cell: ({ quantity, unit }) => `${quantity.toLocaleString(undefined, { maximumFractionDigits: 2 })} ${unit}`,
    },
    { head: 'by', cell: ({ picker }) => picker ?? '' },
  ]
  const sound = new Set(read.picks.map(({ line }) => line)).size
  return (
    <section aria-label="What would be kept">
      <h3>What would be kept</h3>
      <p role="status">
        <strong>{told(massFigure(kg, units.value))}</strong> in {read.picks.length.toLocaleString()}{' '}
        {read.picks.length === 1 ? 'pick' : 'picks'}, from {sound.toLocaleString()} of {read.lines.toLocaleString()}{' '}
        lines.
      </p>
      {read.picks.length > 0 && (
        <Table
          caption="The first picks as they would be kept"
          quietCaption
          columns={columns}
          rows={read.picks}
          rowKey={(pick) => `${pick.line} ${pick.planting ?? pick.bed ?? 'spot'}`}
          few={FEW}
        />
      )}
      {read.faults.length > 0 && (
        <>
          <h3>
            {read.faults.length.toLocaleString()} {read.faults.length === 1 ? 'line' : 'lines'} left out
          </h3>
          <Table
            caption="Lines left out, and why"
            quietCaption
            columns={[
              { head: 'line', number: true, cell: ({ line }) => line },
              { head: 'why', cell: ({ reason }) => reason },
            ]}
            rows={read.faults}
            rowKey={({ line, reason }) => `${line} ${reason}`}
            few={FEW}
          />
        </>
      )}
    </section>
  )
}

function placesBy(names: NotebookNames): (pick: NotebookPick) => string {
  const bed = new Map(names.beds.map(({ id, name }) => [id, name]))
  const crop = new Map(names.crops.map(({ id, name }) => [id, name]))
  const planting = new Map(names.plantings.map((one) => [one.id, one]))
  return (pick) => {
    if (pick.planting !== null) {
      const at = planting.get(pick.planting)
      return at
        ? `${crop.get(at.crop) ?? at.crop}, ${bed.get(at.bed) ?? at.bed}${at.side ? ` ${at.side}` : ''}`
        : pick.planting
    }
    return pick.bed === null ? 'a spot' : (bed.get(pick.bed) ?? pick.bed)
  }
}
