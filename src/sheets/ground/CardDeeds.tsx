import type { Geometry } from 'geojson'
import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { Card } from '../../desk/door.ts'
import type { EditGeometry } from '../../draw/session.ts'
import type { Thing } from '../../map/farmMap.ts'
import { chosen } from '../state/chosen.ts'
import { changeRecord, startAct, takeUp } from '../state/drawing.ts'
import { startLaying } from '../state/laying.ts'
import { farmMap } from '../state/mapHandle.ts'
import type { HeldThing } from '../state/placed.ts'
import { takeIn } from '../state/several.ts'
import { measured } from '../state/shown.ts'
import { EditFault } from './EditFault.tsx'
import { type FormKind, KIND_WORD } from './formFields.ts'
import { Removal } from './Removal.tsx'

/** What can be done to a record from its card: find it on the map, reshape, change, remove. */
export function CardDeeds({ card, children }: { readonly card: Card; readonly children: ComponentChildren }) {
  const [removing, setRemoving] = useState(false)
  const [more, setMore] = useState(false)
  const kind = drawable(card.kind)
  const { geom } = card.record
  return (
    <>
      <EditFault />
      <p class="deeds">
        {chosen.value && (
          <button type="button" onClick={() => find(chosen.value)}>
            Find<span class="unseen"> on the map</span>
          </button>
        )}
        {children}
        {kind && geom && canReshape(geom) && (
          <button type="button" onClick={() => void takeUp({ do: 'edit', kind, id: card.id, geometry: geom })}>
            Reshape
          </button>
        )}
        {kind && geom && (
          <button type="button" onClick={() => void takeUp({ do: 'move', things: [held(card, kind, geom)] })}>
            Move
          </button>
        )}
        {kind === 'fields' && (
          <button type="button" onClick={() => startLaying({ do: 'beds', field: card.id })}>
            Lay out beds
          </button>
        )}
        {(kind === 'beds' || (kind === 'fields' && bedsIn(card.id).length > 0)) && (
          <button
            type="button"
            onClick={() => startLaying({ do: 'rows', beds: kind === 'beds' ? [card.id] : bedsIn(card.id) })}
          >
            Lay rows
          </button>
        )}
        {kind && (
          <>
            <button type="button" onClick={() => changeRecord(card, kind, `Change ${card.title}`)}>
              Change
            </button>
            <button type="button" onClick={() => setRemoving(true)}>
              Remove
            </button>
          </>
        )}
        {kind && geom && (
          <button type="button" aria-expanded={more} onClick={() => setMore(!more)}>
            {more ? 'Less' : 'More'}
          </button>
        )}
        {kind && geom && more && <MoreDeeds thing={held(card, kind, geom)} />}
      </p>
      {kind && removing && <Removal card={card} word={KIND_WORD[kind]} onClose={() => setRemoving(false)} />}
    </>
  )
}

const held = (card: Card, kind: FormKind, geometry: Geometry): HeldThing => ({
  kind,
  id: card.id,
  geometry,
  record: card.record as unknown as AnyRecord,
})

/** Whether corners can be taken hold of one by one. */
const canReshape = (geometry: Geometry): geometry is EditGeometry =>
  ['Point', 'LineString', 'Polygon', 'MultiPolygon'].includes(geometry.type)

/** What is done less often with a thing that stands. */
function MoreDeeds({ thing }: { readonly thing: HeldThing }) {
  const { kind, id, geometry } = thing
  const area = geometry.type === 'Polygon' || geometry.type === 'MultiPolygon'
  const line = geometry.type === 'LineString'
  return (
    <>
      <button type="button" onClick={() => startAct({ do: 'alongside', things: [thing] })}>
        Copy alongside
      </button>
      {(area || line) && (
        <>
          <button type="button" onClick={() => startAct({ do: 'align', things: [thing] })}>
            Align
          </button>
          <button type="button" onClick={() => startAct({ do: 'offset', things: [thing] })}>
            {area ? 'Widen or narrow' : 'Parallel'}
          </button>
          <button type="button" onClick={() => void takeUp({ do: 'draw', what: 'cut', of: thing })}>
            Split
          </button>
        </>
      )}
      {area && kind !== 'beds' && (
        <button type="button" onClick={() => void takeUp({ do: 'draw', what: 'hole', of: thing })}>
          Take a hole out
        </button>
      )}
      <button type="button" onClick={() => selectFrom({ kind, id })}>
        Select with others
      </button>
    </>
  )
}

function selectFrom(thing: Thing): void {
  takeIn([thing], 'add')
  chosen.value = null
  void takeUp({ do: 'select' })
}

function find(thing: Thing | null): void {
  farmMap.value?.fitTo(thing)
}

function bedsIn(field: string): readonly string[] {
  return measured.value?.beds.filter((bed) => bed.field === field).map(({ id }) => id) ?? []
}

function drawable(kind: string): FormKind | null {
  return kind in KIND_WORD ? (kind as FormKind) : null
}
