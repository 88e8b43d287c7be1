import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { freeStart, takenOf } from '../../../../geo/layout/names.ts'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { DeskFault } from '../../../desk/door.ts'
import {
  areaFigure,
  lengthFigure,
  showCount,
  showNumber,
  showShare,
  told,
  wholeLengthFigure,
} from '../../show/figures.ts'
import { choose } from '../../state/chosen.ts'
import { ask } from '../../state/door.ts'
import { units } from '../../state/farm.ts'
import { stopLaying } from '../../state/laying.ts'
import { farmMap } from '../../state/mapHandle.ts'
import { newId } from '../../state/newId.ts'
import { layers, measured } from '../../state/shown.ts'
import { doEdits } from '../../state/steps.ts'
import { on } from '../../state/where.ts'
import { nextName } from '../nextName.ts'
import { BedEntries } from './BedEntries.tsx'
import { sideWords } from './compass.ts'
import { areaOf, farmPlane } from './fieldGround.ts'
import { LaidFigures } from './LaidFigures.tsx'
import { bedEdits, proposedOf } from './layEdits.ts'
import { NameEntries } from './NameEntries.tsx'
import { DayEntry } from './PlanEntries.tsx'
import { typedFor, typePlan } from './planTyped.ts'
import { RowEntries } from './RowEntries.tsx'
import { readBedsAsked } from './readPlans.ts'
import { reckonBeds } from './reckonBeds.ts'
import { obstaclesOf } from './surroundings.ts'
import { dropLine, lineInHand, takeBearing } from './takeBearing.ts'

/** Lays beds out in a field: what is typed, what it makes on the map and in figures, and keeping it as one step. */
export function BedLayout({ field }: { readonly field: string }) {
  const typed = typedFor(units.value)
  const [beds, setBeds] = useState<readonly AnyRecord[] | null>(null)
  const [lineDeg, setLineDeg] = useState<number | null>(null)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const [keeping, setKeeping] = useState(false)
  const name = measured.value?.fields.find(({ id }) => id === field)?.name ?? ''
  const beside = measured.value?.beds.find((bed) => bed.field === field)?.bearing_deg ?? null

  useEffect(() => {
    beginNames(field, name)
    if (typed.along === 'line' || (typed.along === 'beds' && beside === null)) typePlan('along', 'edge')
    return dropLine
  }, [field])
  useEffect(() => {
    void ask('listRecords', { kind: 'beds' }).then((reply) => {
      if (reply.ok) setBeds(reply.value)
      else setFault(reply.fault)
    })
  }, [measured.value])

  const { asked, faults } = readBedsAsked(typed, units.value)
  const sound = Object.keys(faults).length === 0
  const plane = useMemo(() => layers.value && farmPlane(layers.value), [layers.value])
  const bearing = typed.along === 'beds' ? beside : typed.along === 'line' ? lineDeg : null
  const made = useMemo(() => {
    const shown = layers.value
    const ground = shown && plane && areaOf(shown, 'fields', field, plane)
    if (!shown || !plane || !ground || !beds || !sound) return null
    return reckonBeds(ground, obstaclesOf(shown, beds, asked.made ?? on.value, asked.clear, plane), asked, bearing)
  }, [typed, units.value, layers.value, beds, bearing, field])

  useEffect(() => {
    if (!plane || !made) return void farmMap.value?.setProposed(null)
    const rows = made.beds.flatMap((bed) => bed.rows)
    void farmMap.value?.setProposed(
      proposedOf(
        made.beds.map(({ bed }) => bed.corners),
        rows,
        plane,
      ),
    )
  }, [made, plane])
  useEffect(() => () => void farmMap.value?.setProposed(null), [])
  const form = useRef<HTMLFormElement>(null)
  useEffect(() => form.current?.focus({ preventScroll: true }), [])

  const sides = sideWords(made?.bearingDeg ?? asked.bearingDeg ?? 90)
  const taken = beds?.map((bed) => String(bed.name)) ?? []
  const names = made?.beds.map((bed) => bed.name) ?? []
  const keep = async () => {
    if (!made || !plane || made.beds.length === 0) return
    setKeeping(true)
    const rowsNamed =
      typed.rowsBy === 'sides' ? { by: 'side' as const } : { by: 'number' as const, join: typed.rowJoin, start: 1 }
    const edits = bedEdits(made, { field, made: asked.made, rowsNamed }, plane, newId)
    const reply = await doEdits(`Lay out ${counted(made.beds.length)} in ${name}`, edits)
    setKeeping(false)
    setFault(reply.ok ? null : reply.fault)
    if (!reply.ok) return
    stopLaying()
    void choose({ kind: 'fields', id: field })
  }
  const share = shareAfter(field, made?.areaM2 ?? 0)
  return (
    <form
      ref={form}
      tabIndex={-1}
      class="laying"
      aria-label={`Beds in ${name}`}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !keeping) stopLaying()
      }}
    >
      <h2>Beds in {name}</h2>
      <LaidFigures
        figures={[
          ['beds', { value: showCount(made?.beds.length ?? 0), unit: '' }],
          ['of bed', wholeLengthFigure(made?.bedM ?? 0, units.value)],
          ['under beds', areaFigure(made?.areaM2 ?? 0, units.value)],
          ['of the field', { value: showShare(share), unit: '' }],
          ...(asked.rows ? [['of row', wholeLengthFigure(made?.rowM ?? 0, units.value)] as const] : []),
        ]}
      />
      {made && made.beds.length > 0 && (
        <p class="hint">
          Each {told(lengthFigure(made.widthM, units.value))} wide, at {showNumber(made.bearingDeg, 1)}°.
          {made.empty > 0 &&
            ` ${made.empty === 1 ? 'One strip across the field holds' : `${made.empty} strips across the field hold`} no bed.`}
        </p>
      )}
      {beds && sound && (made === null || made.beds.length === 0) && (
        <p class="fault" role="alert">
          No bed fits: make them shorter or narrower, or the headland and distances less.
        </p>
      )}
      <BedEntries
        typed={typed}
        faults={faults}
        sides={sides}
        hasBeds={beside !== null}
        lineDeg={lineDeg}
        takeLine={() => {
          typePlan('along', 'line')
          if (plane) void takeBearing(plane, setLineDeg)
        }}
        drawingLine={lineInHand.value !== null}
      />
      <NameEntries
        typed={typed}
        faults={faults}
        sides={sides}
        names={names}
        taken={takenOf(names, taken)}
        freeStart={freeStart(asked.names, names.length, taken)}
      />
      <fieldset class="group">
        <legend>Rows</legend>
        <RowEntries typed={typed} faults={faults} sides={sides} mayBeNone />
      </fieldset>
      <DayEntry
        typed={typed}
        faults={faults}
        entry="made"
        label="Made on"
        hint="Empty: they are there on every day shown."
      />
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
      <p class="deeds laying-deeds">
        <button type="submit" class="first-deed" disabled={!sound || keeping || !made || made.beds.length === 0}>
          {keeping ? 'Keeping' : `Keep ${counted(made?.beds.length ?? 0)}`}
        </button>
        <button type="button" disabled={keeping} onClick={stopLaying}>
          Leave it
        </button>
      </p>
    </form>
  )
}

const counted = (beds: number) => `${showCount(beds)} ${beds === 1 ? 'bed' : 'beds'}`

/** The share of a field that would be under beds, with those that stand. */
function shareAfter(field: string, moreM2: number): number {
  const told = measured.value?.fields.find(({ id }) => id === field)
  return told && told.area_m2 > 0 ? (told.bed_area_m2 + moreM2) / told.area_m2 : 0
}

/** Names go on after those that the field's beds have; else the field's initial. */
function beginNames(field: string, name: string): void {
  const inField = measured.value?.beds.filter((bed) => bed.field === field).map((bed) => bed.name) ?? []
  const [, prefix, number] = /^(.*?)(\d+)$/.exec(nextName(inField, name.charAt(0).toUpperCase() || 'B')) ?? []
  typePlan('prefix', prefix ?? 'B')
  typePlan('start', String(Number(number ?? 1)))
  typePlan('digits', String(number?.startsWith('0') ? number.length : 1))
}
