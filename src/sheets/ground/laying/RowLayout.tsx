import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { layRows } from '../../../../geo/layout/layRows.ts'
import { takenOf } from '../../../../geo/layout/names.ts'
import type { DeskFault } from '../../../desk/door.ts'
import { showCount, wholeLengthFigure } from '../../show/figures.ts'
import { choose } from '../../state/chosen.ts'
import { units } from '../../state/farm.ts'
import { laying, stopLaying, toggleBed } from '../../state/laying.ts'
import { farmMap } from '../../state/mapHandle.ts'
import { newId } from '../../state/newId.ts'
import { layers, measured } from '../../state/shown.ts'
import { doEdits } from '../../state/steps.ts'
import { sideWords } from './compass.ts'
import { areaOf, farmPlane } from './fieldGround.ts'
import { LaidFigures } from './LaidFigures.tsx'
import { proposedOf, rowEdits, rowNames } from './layEdits.ts'
import { typedFor, typePlan } from './planTyped.ts'
import { RowEntries } from './RowEntries.tsx'
import { readRowsAsked } from './readPlans.ts'

/** Lays rows in one bed or many, as one step. Beds are taken in and left out by a tick or by a tap on the map. */
export function RowLayout({ beds }: { readonly beds: readonly string[] }) {
  const typed = typedFor(units.value)
  const [skip, setSkip] = useState(true)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const [keeping, setKeeping] = useState(false)
  const [field] = useState(() => measured.value?.beds.find(({ id }) => id === beds[0])?.field ?? null)
  useEffect(() => {
    if (typed.rowsBy === 'none') typePlan('rowsBy', 'count')
  }, [])

  const { plan, faults } = readRowsAsked(typed, units.value)
  const sound = Object.keys(faults).length === 0
  const plane = useMemo(() => layers.value && farmPlane(layers.value), [layers.value])
  const rowsIn = useMemo(() => {
    const names = new Map<string, string[]>()
    for (const { properties } of layers.value?.rows.features ?? [])
      names.set(properties.bed, [...(names.get(properties.bed) ?? []), properties.name ?? ''])
    return names
  }, [layers.value])
  const offered = measured.value?.beds.filter((bed) => bed.field === field || beds.includes(bed.id)) ?? []
  const filled = beds.filter((id) => rowsIn.has(id))
  const naming = (bed: string) =>
    typed.rowsBy === 'sides'
      ? { by: 'side' as const }
      : { by: 'number' as const, join: typed.rowJoin, start: (rowsIn.get(bed)?.length ?? 0) + 1 }

  const made = useMemo(() => {
    const shown = layers.value
    if (!shown || !plane || !sound) return []
    return beds.flatMap((id) => {
      const area = areaOf(shown, 'beds', id, plane)
      const bed = measured.value?.beds.find((one) => one.id === id)
      if (!area || !bed || (skip && rowsIn.has(id))) return []
      return [{ id, name: bed.name, area, rows: layRows(area, plan) }]
    })
  }, [typed, units.value, layers.value, beds, skip])
  const rows = made.flatMap((bed) => bed.rows)
  const bare = made.filter((bed) => bed.rows.length === 0)
  const clashes = made.flatMap((bed) => takenOf(rowNames(bed.name, bed.rows, naming(bed.id)), rowsIn.get(bed.id) ?? []))

  useEffect(() => {
    if (!plane) return
    void farmMap.value?.setProposed(
      proposedOf(
        made.map(({ area }) => area[0]!),
        rows,
        plane,
      ),
    )
  }, [made, plane])
  useEffect(() => () => void farmMap.value?.setProposed(null), [])
  const form = useRef<HTMLFormElement>(null)
  useEffect(() => form.current?.focus({ preventScroll: true }), [])

  const keep = async () => {
    if (!plane || rows.length === 0) return
    setKeeping(true)
    const edits = made.flatMap((bed) => rowEdits(bed, bed.rows, naming(bed.id), plane, newId))
    const into = made.length === 1 ? made[0]!.name : `${showCount(made.length)} beds`
    const reply = await doEdits(`Lay ${counted(rows.length)} in ${into}`, edits)
    setKeeping(false)
    setFault(reply.ok ? null : reply.fault)
    if (!reply.ok) return
    const first = made[0]
    stopLaying()
    if (first) void choose({ kind: 'beds', id: first.id })
  }
  const title =
    beds.length === 1 ? `Rows in ${offered.find(({ id }) => id === beds[0])?.name ?? 'a bed'}` : 'Rows in beds'
  const all = offered.every(({ id }) => beds.includes(id))
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="laying"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !keeping) stopLaying()
      }}
    >
      <h2>{title}</h2>
      <LaidFigures
        figures={[
          ['rows', { value: showCount(rows.length), unit: '' }],
          [
            'of row',
            wholeLengthFigure(
              rows.reduce((sum, { lengthM }) => sum + lengthM, 0),
              units.value,
            ),
          ],
          ['in beds', { value: showCount(made.length), unit: '' }],
        ]}
      />
      <RowEntries
        typed={typed}
        faults={faults}
        sides={sideWords(measured.value?.beds.find(({ id }) => id === beds[0])?.bearing_deg ?? 90)}
        mayBeNone={false}
      />
      {sound && bare.length > 0 && (
        <p class="fault" role="alert">
          {bare.length === 1 ? `No row fits in ${bare[0]!.name}` : `No row fits in ${bare.length} of the beds`}: the
          distances from edges and ends take all of it.
        </p>
      )}
      {filled.length > 0 && (
        <label class="tick">
          <input type="checkbox" checked={skip} onChange={(event) => setSkip(event.currentTarget.checked)} />
          Leave out {filled.length === 1 ? 'the bed that has rows' : `the ${filled.length} beds that have rows`} already
        </label>
      )}
      {clashes.length > 0 && (
        <p class="fault" role="alert">
          {clashes.slice(0, 3).join(', ')}
          {clashes.length > 3 && ` and ${clashes.length - 3} more`} {clashes.length === 1 ? 'is' : 'are'} there already
          by name.
        </p>
      )}
      <details class="more" open={beds.length !== 1}>
        <summary>
          Beds: {beds.length} of {offered.length}
        </summary>
        <p class="hint">Tap a bed on the map to take it in or leave it out.</p>
        <p class="deeds">
          <button
            type="button"
            onClick={() => {
              laying.value = { do: 'rows', beds: all ? [] : offered.map(({ id }) => id) }
            }}
          >
            {all ? 'None of them' : 'All of them'}
          </button>
        </p>
        <div class="bed-ticks">
          {offered.map(({ id, name }) => (
            <label key={id} class="tick">
              <input type="checkbox" checked={beds.includes(id)} onChange={() => toggleBed(id)} />
              {name}
            </label>
          ))}
        </div>
      </details>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
      <p class="deeds laying-deeds">
        <button type="submit" class="first-deed" disabled={!sound || keeping || rows.length === 0}>
          {keeping ? 'Keeping' : `Keep ${counted(rows.length)}`}
        </button>
        <button type="button" disabled={keeping} onClick={stopLaying}>
          Leave it
        </button>
      </p>
    </form>
  )
}

const counted = (rows: number) => `${showCount(rows)} ${rows === 1 ? 'row' : 'rows'}`
